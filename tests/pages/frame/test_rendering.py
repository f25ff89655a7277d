"""What every template is given."""

import pytest
from jinja2 import UndefinedError

from server.pages.frame.rendering import sheets


def test_a_word_stands_beside_its_shape():
    """The mark of a verdict's word is the same through its macro and by itself, and its letters are no markup."""
    said = sheets().from_string('{% from "frame/marks.html" import word %}{{ word(it) }}|{{ word_marks[it] }}')
    mark = '<span class="word word-not-asked"><span class="shape" aria-hidden="true">–</span> not asked</span>'
    assert said.render(it="not asked") == f"{mark}|{mark}"
    with pytest.raises(UndefinedError):
        said.render(it="<b>")
