"""The first tables: the sealed ones, those derived from them, and what the door keeps."""

import sqlalchemy as sa
from alembic import op

revision = "2025_01_first"
down_revision = None
branch_labels = None
depends_on = None

_FIRST = sa.text("kind = 'entry' AND state IN ('taken', 'taken, not understood')")
_TOLD = sa.text("kind <> 'entry'")
_PHOTO = sa.text("entry_kind = 'photo'")


def upgrade() -> None:
    """Make them."""
    _make_line()
    _make_link_and_checkpoint()
    _make_judged()
    _make_door()


def downgrade() -> None:
    """Refuse: the record itself is in these tables."""
    raise RuntimeError("the first tables hold the record; there is no step before them")


def _text(name: str, *, null: bool = False) -> sa.Column[str]:
    return sa.Column(name, sa.String(), nullable=null)


def _whole(name: str, *, null: bool = False) -> sa.Column[int]:
    return sa.Column(name, sa.BigInteger().with_variant(sa.Integer(), "sqlite"), nullable=null)


def _given(name: str) -> sa.Column[int]:
    return sa.Column(name, sa.BigInteger().with_variant(sa.Integer(), "sqlite"), nullable=False, autoincrement=False)


def _bytes(name: str) -> sa.Column[bytes]:
    return sa.Column(name, sa.LargeBinary(), nullable=False)


def _key(table: str, *columns: str) -> sa.PrimaryKeyConstraint:
    return sa.PrimaryKeyConstraint(*columns, name=f"pk_{table}")


def _points_to_line(table: str, column: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint([column], ["line.position"], name=f"fk_{table}_{column}")


def _index(table: str, *columns: str) -> None:
    op.create_index(f"ix_{table}_{'_'.join(columns)}", table, list(columns))


def _make_line() -> None:
    wholes = ("seq", "mono_ms", "device_ms", "sent_ms", "happened_ms")
    op.create_table(
        "line",
        _given("position"),
        _text("id"),
        _text("delivery", null=True),
        _text("kind"),
        _text("entry_kind", null=True),
        _text("device"),
        _text("boot", null=True),
        *(_whole(name, null=True) for name in wholes),
        _whole("received_ms"),
        _text("frame", null=True),
        _text("of", null=True),
        _text("state"),
        _text("problem", null=True),
        *(_bytes(name) for name in ("body", "body_sha256", "envelope", "leaf")),
        _key("line", "position"),
    )
    _index("line", "id")
    _index("line", "of")
    _index("line", "frame", "position")
    op.create_index("ux_line_first", "line", ["id"], unique=True, sqlite_where=_FIRST, postgresql_where=_FIRST)
    op.create_index("ix_line_told", "line", ["position"], sqlite_where=_TOLD, postgresql_where=_TOLD)
    op.create_index("ix_line_photo", "line", ["position"], sqlite_where=_PHOTO, postgresql_where=_PHOTO)


def _make_link_and_checkpoint() -> None:
    op.create_table(
        "subject_link",
        _text("kind"),
        _text("id"),
        _given("number"),
        _whole("position"),
        _bytes("head"),
        _points_to_line("subject_link", "position"),
        _key("subject_link", "kind", "id", "number"),
    )
    _index("subject_link", "position")
    op.create_table(
        "checkpoint",
        _given("size"),
        *(_bytes(name) for name in ("root", "peaks", "note")),
        _whole("made_ms"),
        _points_to_line("checkpoint", "size"),
        _key("checkpoint", "size"),
    )


def _make_judged() -> None:
    judged = ("level", "book")
    op.create_table(
        "verdict",
        _whole("number"),
        _text("subject"),
        *map(_text, judged),
        _text("frame", null=True),
        _whole("known_at"),
        _text("packed"),
        _bytes("digest"),
        _key("verdict", "number"),
    )
    _index("verdict", "frame")
    _index("verdict", "subject", "level", "number")
    op.create_table(
        "finding",
        _whole("number"),
        _text("key"),
        _text("about"),
        *map(_text, judged),
        _text("frame", null=True),
        _whole("known_at"),
        *map(_text, ("question", "word", "severity")),
        sa.Column("gone", sa.Boolean(), nullable=False),
        _text("verdict"),
        _key("finding", "number"),
    )
    _index("finding", "about")
    _index("finding", "frame")
    _index("finding", "key", "number")
    judged_to = ("position", "judged_ms")
    op.create_table("judged_to", _whole("number"), _text("book"), *map(_whole, judged_to), _key("judged_to", "number"))
    _index("judged_to", "book")


def _make_door() -> None:
    op.create_table(
        "credential",
        *map(_text, ("person", "kind", "secret_hash")),
        _whole("made_ms"),
        _key("credential", "person", "kind"),
    )
    op.create_table(
        "session",
        *map(_text, ("token_hash", "person", "role", "device")),
        *map(_whole, ("created_ms", "seen_ms", "ends_ms")),
        _key("session", "token_hash"),
    )
    _index("session", "person")
    op.create_table(
        "device",
        *map(_text, ("id", "title")),
        _text("bench", null=True),
        _text("key_hash"),
        _whole("enrolled_ms"),
        _whole("revoked_ms", null=True),
        _key("device", "id"),
        sa.UniqueConstraint("key_hash", name="uq_device_key_hash"),
    )
    op.create_table(
        "failed_try",
        *map(_text, ("person", "device")),
        *map(_whole, ("tries", "last_ms", "wait_until_ms")),
        _key("failed_try", "person", "device"),
    )
