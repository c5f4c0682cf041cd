"""Runs of different length in one array."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.runs import batches


@given(counts=st.lists(st.integers(0, 40), max_size=60), most=st.integers(1, 100))
def test_batches_take_every_run_once_and_few_entries_at_a_time(counts, most):
    found = list(batches(np.array(counts, np.int64), most))
    assert [k for begin, end in found for k in range(begin, end)] == list(range(len(counts)))
    for begin, end in found:
        assert end > begin
        assert sum(counts[begin:end]) <= most or end == begin + 1
