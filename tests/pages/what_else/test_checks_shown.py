"""A check on the shared-cause page says when, what and how it came out, and escapes what anybody typed."""

from server.charts.time_band import Mark
from server.pages.what_else.checks_shown import check_rows, shapes
from server.work.what_checks import Beside

CHECK = Beside(0, "bead on <L&1>", good=True, entry="T:1", about="L")


def test_a_row_to_each_check():
    """Good or not good stands in the row, the entry that told it beside it; another zone writes another moment."""
    good, failed = (str(check_rows([CHECK._replace(good=each)], "UTC")) for each in (True, False))
    assert good == (
        "<tr><td>Thu 01 Jan 1970 00:00</td><td>bead on &lt;L&amp;1&gt;</td><td>good</td>"
        '<td class="mono quiet">T:1</td></tr>'
    )
    assert failed == good.replace("<td>good</td>", "<td><strong>not good</strong></td>")
    assert check_rows([CHECK, CHECK], "Asia/Tokyo") == 2 * good.replace("00:00", "09:00")


def test_a_shape_to_each_mark():
    """A good check is a round mark around its column, a failed one a square about it; both are said in words."""
    assert shapes([Mark(50, "good", "<bead>"), Mark(50, "failed", "coupon")]) == (
        '<circle class="good" cx="50" cy="26" r="6"><title>&lt;bead&gt;</title></circle>'
        '<rect class="failed" x="44" y="20" width="12" height="12"><title>coupon</title></rect>'
    )
