"""What differs between two revisions."""

from server.procedures.compare import compare
from tests.procedures.ladder import ladder

OLD = ladder()


def test_a_revision_does_not_differ_from_itself() -> None:
    """Nothing changed, nothing said."""
    assert compare(OLD, OLD) == []


def test_differences_stand_in_the_order_of_the_work() -> None:
    """Paper, before the arc, at the arc, after the arc, each with how it was and how it is."""
    new = ladder(
        **{
            'zone = "bead", high = 2': 'zone = "bead", high = 1',
            "low = 60": "low = 65",
            "high = 0.003": "high = 0.002",
            "Rungs on rails": "Rungs, on rails",
        }
    )
    found = compare(OLD, new)
    assert [d.moment for d in found] == ["on the paper", "before the arc", "at the arc", "after the arc"]
    assert [d.about for d in found][1:] == [
        "purge oxygen at arc start",
        "peak current",
        "weld colour, inside, bead",
    ]
    assert (found[1].old.split(";")[0], found[1].new.split(";")[0]) == ("at most 0.003 %", "at most 0.002 %")


def test_a_limit_added_and_one_dropped_are_told_apart() -> None:
    """What stands only in the new revision was added, what stands only in the old was dropped."""
    rod = 'rod = { allowed = [1.1], unit = "mm", source = "QR-1", plan = { when = "every fill" } }\n'
    less = ladder(**{rod: ""})
    assert [(d.what, d.about, d.old, d.new) for d in compare(OLD, less)] == [
        ("dropped", "rod diameter", "1.1 mm; every fill; QR-1", "")
    ]
    assert [(d.what, d.old) for d in compare(less, OLD)] == [("added", "")]


def test_a_changed_measuring_plan_is_a_difference() -> None:
    """The same figure asked more often is a change for the welder."""
    (found,) = compare(OLD, ladder(**{"n = 3": "n = 2"}))
    assert (found.what, found.about) == ("changed", "metal temperature before the next pass")
    assert "one joint in 2" in found.new


def test_two_plans_for_one_limit_are_both_compared() -> None:
    """A limit split by inside view is compared as a whole."""
    inside = 'side = "inside", zone = "bead", high = 2, unit = "grade", source = "shop", plan = { when = "every joint"'
    split = ladder(**{inside: f'{inside}, where = ["F"] }} }},\n  {{ {inside}, where = ["P"]'})
    (found,) = compare(OLD, split)
    assert found.new.count("at most grade 2") == 2


def test_a_range_made_wider_is_told_with_both_figures() -> None:
    """What a record is said to qualify is the laboratory's word: the figure that differs stands there, and no other."""
    (found,) = compare(OLD, ladder(**{"high = 30, unit": "high = 40, unit"}))
    assert (found.about, found.old, found.new) == (
        "qualification record QR-1",
        "purge oxygen at arc start [ppm] qualified at most 30",
        "purge oxygen at arc start [ppm] qualified at most 40",
    )


def test_cautions_fillers_and_records_are_compared_too() -> None:
    """A new caution and a record tested again show where they belong."""
    new = ladder(
        **{"Mind the arc.": "Mind the arc well.", "high = 2,": "high = 1,", "dated = 2031-01-15": "dated = 2031-01-16"}
    )
    found = compare(OLD, new)
    assert [(d.moment, d.about) for d in found] == [
        ("on the paper", "qualification record QR-1"),
        ("at the arc", "caution (the ladder shop's own)"),
        ("at the arc", "caution (the ladder shop's own)"),
        ("after the arc", "weld colour, inside, bead"),
    ]
