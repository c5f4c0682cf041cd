"""The long run on sides (tests/benchmarks/long_sides.py), short."""

import numpy as np
import pytest

from tests.benchmarks.long_sides import RULES, Count, World, batch, winding


@pytest.mark.parametrize("seed", [11, 12])
def test_no_guideline_lies_on_the_wrong_side(seed):
    counts = {rule: Count() for rule in RULES}
    cases = batch(np.random.default_rng(seed), 150, counts)
    assert cases > 1500
    assert {rule: own.wrong for rule, own in counts.items() if own.wrong} == {}
    assert sum(own.flagged for own in counts.values()) < 0.01 * cases
    assert all(own.pieces >= 0.95 * own.cases for own in counts.values())


def test_the_judge_sees_the_wrong_side(monkeypatch):
    counts = {rule: Count() for rule in RULES}
    honest = World.truth
    monkeypatch.setattr(World, "truth", lambda self, rule: -honest(self, rule))
    batch(np.random.default_rng(3), 30, counts)
    assert all(own.wrong == own.pieces > 0 for own in counts.values())


def test_winding_of_a_band():
    line = np.array([(0.0, 0.0), (10.0, 0.0)])
    assert winding(line, np.subtract(line, (0, 1)), 0, 10) == 1  # below an eastward line: its right
    assert winding(line, np.add(line, (0, 1)), 0, 10) == -1
