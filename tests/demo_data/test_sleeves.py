"""Rod sleeves: which are open where, and that every fill names one that is."""

from demo_data.generator.sleeves import Sleeve
from tests.demo_data.told import Told, moment


def named(full: Told, code: str) -> Sleeve:
    return next(sleeve for sleeve in full.shop.sleeves if sleeve.code == code)


def test_every_fill_names_a_sleeve_open_at_its_bench(full: Told) -> None:
    """No fill names a sleeve that was not open then, or that lay at the other bench."""
    sleeves = {sleeve.code: sleeve for sleeve in full.shop.sleeves}
    fills = [h for h in full.by_kind["pass"] if h.fields["run"] in ("fill", "repair") and "sleeve" in h.fields]
    for fill in fills:
        sleeve = sleeves[fill.fields["sleeve"]]
        assert sleeve.opened < fill.at < (sleeve.closed or fill.at + 1), fill
        assert fill.fields["torch_line"].startswith(sleeve.bench), fill
    assert len(fills) > 8000


def test_only_the_planted_fill_names_none(full: Told) -> None:
    """Every fill names its sleeve but the one nobody scanned; roots and tacks say they had no filler."""
    unnamed = [h for h in full.by_kind["pass"] if "sleeve" not in h.fields]
    assert [(h.fields["frame"], h.fields["joint"], h.fields["attempt"]) for h in unnamed] == [("MT-0149", "J10", 4)]
    assert {h.fields["sleeve"] for h in full.by_kind["pass"] if h.fields["run"] == "root"} == {"none"}
    assert {h.fields["sleeve"] for h in full.by_kind["tack"]} == {"none"}


def test_fittings_and_joints_take_their_own_class(full: Told) -> None:
    """Fittings are filled from sleeves kept for ERTi-2, joints from those kept for ERTi-9."""
    sleeves = {sleeve.code: sleeve for sleeve in full.shop.sleeves}
    for fill in (h for h in full.by_kind["pass"] if h.fields["run"] == "fill"):
        wanted = "ERTi-9" if fill.fields["joint"][0] in "JK" else "ERTi-2"
        assert sleeves[fill.fields["sleeve"]].filler_class == wanted


def test_the_planted_sleeves_are_open_when_the_story_says(full: Told) -> None:
    """FT-0192 and FT-0193 lie open beside each other at booth 1, the first with its rod ends unread."""
    wrong, right = named(full, "FT-0192"), named(full, "FT-0193")
    assert (wrong.bench, wrong.opened, wrong.closed) == (
        "B1", moment("2025-08-18", "10:20"), moment("2025-08-21", "15:30")
    )  # fmt: skip
    assert (right.opened, right.closed) == (moment("2025-08-18", "10:25"), moment("2025-08-22", "16:30"))
    opened = [h for h in full.by_kind["sleeve"] if h.fields["act"] == "opened"]
    assert [h.fields["sleeve"] for h in opened if "rod_ends" not in h.fields] == ["FT-0192"]
    found = [h for h in full.by_kind["sleeve"] if h.fields["sleeve"] == "FT-0192" and h.fields["act"] == "checked"]
    assert [(h.at, h.fields["rod_ends"]) for h in found] == [(moment("2025-09-12", "10:35"), "ERTi-2")]


def test_numbers_say_what_is_inside(full: Told) -> None:
    """Numbers ending in nine hold fittings rod, numbers divisible by seven thin rod."""
    for sleeve in full.shop.sleeves:
        assert (sleeve.use == "fittings") == sleeve.code.endswith("9")
        assert (sleeve.rod_mm == "0.9") == (sleeve.number % 7 == 0)
