"""A file handed out has a plain name, whatever somebody called what it is about."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.pages.dossier.route import _sent
from server.pages.frame.file_name import plain_name
from server.work.dossier import About

HOSTILE = ['A"; filename="b.exe', "../../etc/passwd", "A\r\nSet-Cookie: x=1", "A\x00.pdf", "\u202egpj.exe", "...", ""]


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_names_become_plain(text: str):
    """Quotes, line ends, ways up, nothing at all and letters that turn the reading round leave a plain name."""
    name = plain_name(text)
    assert re.fullmatch(r"[A-Za-z0-9_-][A-Za-z0-9._-]*", name)
    assert ".." not in name


@given(st.text(max_size=300))
def test_any_text_becomes_plain(text: str):
    """Whatever it is, the name is short, of plain letters, and begins with none that hides it."""
    assert re.fullmatch(r"[A-Za-z0-9_-][A-Za-z0-9._-]{0,79}", plain_name(text))


@pytest.mark.parametrize("serial", HOSTILE)
def test_a_dossier_is_called_by_it(serial: str):
    """The header holds one name between its quotes, the customer's version another, and nothing else got in."""
    for for_whom, joint, ending in (("shop", "", ""), ("customer", serial, "-for-customer")):
        told = _sent(b"", About(serial, joint, for_whom), "pdf").headers  # type: ignore[arg-type]
        named = rf'inline; filename="[A-Za-z0-9._-]+-dossier{ending}\.pdf"'
        assert re.fullmatch(named, told["content-disposition"])
        assert "set-cookie" not in told
