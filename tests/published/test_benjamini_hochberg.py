"""Figures of Benjamini and Hochberg, J. R. Stat. Soc. B 57 (1995) 289, section 4 (from memory)."""

from server.statistics.false_discovery import q_values

P_VALUES = [
    0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344,
    0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1.0000,
]  # fmt: skip


def test_fifteen_hypotheses() -> None:
    """Of fifteen hypotheses the procedure rejects four at 0.05, where Bonferroni rejects three."""
    assert sum(q <= 0.05 for q in q_values(P_VALUES)) == 4
    assert sum(p * len(P_VALUES) <= 0.05 for p in P_VALUES) == 3
