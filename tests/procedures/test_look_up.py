"""Finding the limit that holds at one place."""

from server.procedures.look_up import limit_for, limits_for
from tests.procedures.ladder import ladder

MORE = ladder(
    **{
        "peak_current = { low = 60, high = 90,": 'peak_current = { runs = ["root"], low = 60, high = 90,',
        'side = "inside", zone = "bead", high = 2, unit = "grade", source = "shop", plan = { when = "every joint" }': (
            'side = "inside", zone = "bead", high = 2, unit = "grade", source = "shop", '
            'plan = { when = "every joint", where = ["F"] } },\n'
            '  { side = "inside", zone = "bead", high = 1, unit = "grade", source = "shop", '
            'plan = { when = "one per stage", where = ["P"] }'
        ),
    }
)


def test_side_and_zone_choose_the_colour_limit() -> None:
    """Outside and inside have limits of their own."""
    outside, inside = (limit_for(MORE, "colour", side=side, zone="bead", inside="F") for side in ("outside", "inside"))
    assert outside is not None
    assert inside is not None
    assert (outside.high, inside.high) == (1, 2)


def test_the_inside_view_chooses_between_plans() -> None:
    """A joint seen in full and one seen in part are asked differently; a blind one is not asked at all."""
    found = {code: limit_for(MORE, "colour", side="inside", inside=code) for code in ("F", "P", "N")}
    assert {code: limit.plan.when if limit else None for code, limit in found.items()} == {
        "F": "every joint",
        "P": "one per stage",
        "N": None,
    }


def test_a_limit_for_one_run_does_not_hold_for_another() -> None:
    """A limit written for the root is not found for the fill, one without runs is found for both."""
    assert limits_for(MORE, "peak_current", run="root")
    assert limits_for(MORE, "peak_current", run="fill") == []
    assert limit_for(MORE, "oxygen", run="fill") == limit_for(MORE, "oxygen", run="root")


def test_a_limit_the_revision_does_not_set_is_not_found() -> None:
    """What is not written is not made up."""
    assert limit_for(MORE, "volts") is None
    assert limit_for(MORE, "oxygen", zone="edge", line="torch") is not None
