"""How a shop writes units, spelled for the library."""

from server.physics.unit_words import spell_unit


def test_degrees_are_degrees_only_where_a_temperature_is_wanted():
    """C and F are degrees for a temperature and coulomb and farad elsewhere, and nothing is evaluated as a sum."""
    assert [spell_unit("C", for_temperature=kind) for kind in ("", "delta_", None)] == ["degC", "delta_degC", "C"]
    assert [spell_unit(unit) for unit in ("2*3", "mm+mm", "f(x)", "", "mm//s")] == [None] * 5
