"""Pairs taken in order of merit, against taking them one by one."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.breaks.first_come import first_come

ENDS = 9
PAIRS = st.lists(
    st.tuples(st.integers(0, ENDS - 1), st.integers(1, ENDS - 1)).map(
        lambda pair: (pair[0], (pair[0] + pair[1]) % ENDS)
    ),
    max_size=20,
)


@given(PAIRS)
def test_no_end_is_taken_twice_and_the_better_pair_goes_first(pairs):
    taken, wanted = set(), []
    for number, pair in enumerate(pairs):
        if not taken & set(pair):
            taken |= set(pair)
            wanted.append(number)
    one, other = np.array(pairs, np.int64).reshape(-1, 2).T
    assert first_come(one, other, ENDS).tolist() == wanted
