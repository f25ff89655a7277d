"""What the door keeps and changes: secrets, sessions, enrolled devices and failed tries; none of it is evidence."""

from sqlmodel import Field

from server.record.tables.row import WHOLE, Row


class CredentialRow(Row, table=True):
    """A person's secret of one kind, as its hash only; `given` by somebody else, it waits to be changed."""

    __tablename__ = "credential"

    person: str = Field(primary_key=True)
    kind: str = Field(primary_key=True)
    secret_hash: str
    made_ms: int = Field(sa_type=WHOLE)
    given: bool = False


class SessionRow(Row, table=True):
    """A person signed in on a device in one role; the token itself is known only to the browser."""

    __tablename__ = "session"

    token_hash: str = Field(primary_key=True)
    person: str = Field(index=True)
    role: str
    device: str
    created_ms: int = Field(sa_type=WHOLE)
    seen_ms: int = Field(sa_type=WHOLE)
    ends_ms: int = Field(sa_type=WHOLE)
    must_change: bool = False


class DeviceRow(Row, table=True):
    """A device the owner enrolled, known by the hash of its key until it is revoked."""

    __tablename__ = "device"

    id: str = Field(primary_key=True)
    title: str
    bench: str | None = None
    key_hash: str = Field(unique=True)
    enrolled_ms: int = Field(sa_type=WHOLE)
    revoked_ms: int | None = Field(default=None, sa_type=WHOLE)
    public_key: str | None = None


class PasskeyRow(Row, table=True):
    """A passkey of a person: its public half, and how often its maker says it was used."""

    __tablename__ = "passkey"

    id: str = Field(primary_key=True)
    person: str = Field(index=True)
    title: str
    public_key: bytes
    sign_count: int = Field(sa_type=WHOLE)
    made_ms: int = Field(sa_type=WHOLE)
    used_ms: int | None = Field(default=None, sa_type=WHOLE)


class FailedTryRow(Row, table=True):
    """How often somebody was refused in a row, and until when the next try has to wait."""

    __tablename__ = "failed_try"

    person: str = Field(primary_key=True)
    device: str = Field(primary_key=True)
    tries: int = Field(sa_type=WHOLE)
    last_ms: int = Field(sa_type=WHOLE)
    wait_until_ms: int = Field(sa_type=WHOLE)
