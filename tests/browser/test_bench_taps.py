"""A tap is answered before the screen is drawn, and drawing anew leaves in place what has not changed."""

from typing import Any

import pytest
from playwright.sync_api import Browser

from tests.browser.scripts import run, script_page, swapped

_TAPS = """
const { h } = await import('/element.js');
const said = [];
const draw = it.answeringFirst(({ top }) => said.push(top ? 'drawn from the top' : 'drawn'));
const control = (name, act) => h('button', { onclick: () => {
  said.push(`${name} acts`);
  act();
  said.push(`${name} is over`);
} });
const log = control('log', () => { draw({ top: true }); draw(); });
const gone = control('gone', () => {});
const other = control('other', () => { draw(); });
document.body.append(log, gone, other);
log.click();
said.push(log.hasAttribute('data-pressed') ? 'pressed' : 'not pressed');
requestAnimationFrame(() => said.push('frame'));
await new Promise((over) => requestAnimationFrame(() => setTimeout(() => setTimeout(over))));
other.click();
log.click();
gone.remove();
gone.click();
draw();
await new Promise((over) => setTimeout(over, 400));
return said;
"""
_FIRST = ["log acts", "log is over", "pressed", "frame", "drawn from the top"]
_THEN = ["other acts", "other is over", "drawn", "log acts", "log is over", "drawn from the top", "drawn"]
_REDRAWN = """
const { h } = await import('/element.js');
const said = [];
const screen = (digits, ...more) => [...more, h('h1', {}, 'J03'), h('div', { class: 'work' },
  h('output', { class: digits ? 'value read' : 'value' }, digits, ' ppm'), h('input', { 'data-key': 'code' }),
  h('button', { 'data-key': 'log', onclick: () => said.push(`logs ${digits}`) }, h('span', {}, 'Log')))];
const place = document.body;
it.redraw(place, screen(''));
const all = () => [...place.querySelectorAll('*')];
const [before, field] = [all(), place.querySelector('input')];
field.value = 'FT-09';
field.focus();
it.redraw(place, screen('12', h('section', { role: 'alert' }, 'Outside the limit')));
place.querySelector('button').click();
const staying = () => before.filter((each) => all().includes(each)).length;
const stayed = staying();
const words = place.textContent;
const focus = document.activeElement === field;
it.redraw(place, [h('h1', {}, 'J04')]);
return [said, stayed === before.length, focus, field.value, words, staying(), place.textContent];
"""


@pytest.mark.parametrize(
    ("old", "new", "asked"),
    [
        ("", "", _FIRST + _THEN),
        ("if (!acting && !soon)", "if (true)", None),
        ("drawDue?.();", "", None),
    ],
)
def test_a_tap_shows_in_the_next_frame_and_the_screen_is_drawn_after_it(
    browser: Browser, old: str, new: str, asked: list[str] | None
) -> None:
    """Pressed first, drawn once after the frame or before the next tap acts; two controls do otherwise."""
    page = script_page(browser, {"tap.js": swapped(old, new)})
    said = run(page, "tap.js", _TAPS)
    page.context.close()
    assert (said == _FIRST + _THEN) is (asked is not None), said


def test_drawing_anew_touches_only_what_differs(browser: Browser) -> None:
    """A digit keeps every element, the focus and typed words; the button logs the new digit; controls lose them."""
    whole: list[Any] = [["logs 12"], True, True, "FT-09", "Outside the limitJ0312 ppmLog", 0, "J04"]
    assert redrawn(browser, "", "") == whole
    assert redrawn(browser, "while (at && kindOf(at) !== kind) at = at.nextSibling;", "at = null;") != whole
    assert redrawn(browser, "doAs(stays, fresh);", "") != whole
    assert redrawn(browser, "while (at) at = dropped(at);", "") != whole


def redrawn(browser: Browser, old: str, new: str) -> Any:
    """What stayed and what was said after a digit and after a change of screen, of the script altered."""
    page = script_page(browser, {"redraw.js": swapped(old, new)})
    found = run(page, "redraw.js", _REDRAWN)
    page.context.close()
    return found
