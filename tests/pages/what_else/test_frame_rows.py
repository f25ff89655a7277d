"""A frame's row leads to each of its joints, says what is told of it, and escapes what anybody typed."""

from server.pages.what_else.frame_rows import frame_rows
from server.work.frame_told import FrameTold

TOLD = FrameTold("X/1 <b>", ("A 1#1", "B&C#12"), 0, "Tom & <Co>", None)


def test_what_a_row_says():
    """Names and joints are escaped and can be followed, a later attempt says which, a frame not sent says so."""
    assert frame_rows([TOLD], "UTC", [], sees_customers=True) == (
        '  <tr><td><a href="/history/X/1%20%3Cb%3E">X/1 &lt;b&gt;</a></td>\n'
        '    <td><a href="/history/X/1%20%3Cb%3E/A%201">A 1</a>; '
        '<a href="/history/X/1%20%3Cb%3E/B%26C">B&amp;C, attempt 12</a></td>\n'
        "    <td>Thu 01 Jan 1970 00:00</td>\n"
        "    <td>Tom &amp; &lt;Co&gt;</td>\n"
        "    <td>not shipped</td></tr>\n"
    )


def test_each_asking_gets_its_own():
    """The same frame shown again says what holds then: a hold, another zone, when it left, nobody's name for some."""
    plain = str(frame_rows([TOLD], "UTC", [], sees_customers=True))
    held = frame_rows([TOLD], "UTC", [TOLD.frame], sees_customers=True)
    assert held == plain.replace("</a></td>\n", "</a><br><strong>legal hold</strong></td>\n", 1)
    nameless = frame_rows([TOLD], "UTC", [], sees_customers=False)
    assert nameless == plain.replace("    <td>Tom &amp; &lt;Co&gt;</td>\n", "")
    sent = frame_rows([TOLD._replace(shipped_ms=86_400_000)], "Asia/Tokyo", [], sees_customers=True)
    assert "Thu 01 Jan 1970 09:00" in sent
    assert "Fri 02 Jan 1970 09:00" in sent
    renamed = frame_rows([TOLD._replace(customer="Another")], "UTC", [], sees_customers=True)
    assert renamed == plain.replace("Tom &amp; &lt;Co&gt;", "Another")
