"""Sealing and rechecking stay within a small multiple of bare hashing."""

from tests.benchmarks.evidence_speed import measured


def test_sealing_costs_little_more_than_hashing():
    """Appending with one chain stays under 12 times bare SHA-256, with four under 25, a recheck under 60."""
    multiples = {name: multiple for name, (_, multiple) in measured(10_000).items()}
    assert multiples["leaf, frontier and one chain"] < 12
    assert multiples["leaf, frontier and four chains"] < 25
    assert multiples["recheck with four chains and seals"] < 60
