"""Work done block by block, in several threads."""

import os
import threading
import time

import numpy as np
import pytest

from plugin.core.blocks import in_blocks


@pytest.mark.parametrize("cores", [1, 3])
@pytest.mark.parametrize("count", [0, 1, 7, 8, 80])
def test_blocks_make_up_the_whole_in_order(monkeypatch, cores, count):
    monkeypatch.setattr(os, "cpu_count", lambda: cores)

    def slow_at_first(begin, end):
        time.sleep(0.002 if begin == 0 else 0)
        return np.arange(begin, end)

    told = []
    blocks = in_blocks(slow_at_first, count, 7, told.append)
    assert np.concatenate([[], *blocks]).tolist() == list(range(count))
    assert max(map(len, blocks), default=0) <= 7
    assert told == sorted(told)
    assert told[-1:] == ([1.0] if count else [])


@pytest.mark.parametrize("cores", [1, 2])
def test_what_progress_raises_ends_the_work(monkeypatch, cores):
    monkeypatch.setattr(os, "cpu_count", lambda: cores)
    done = []

    def stop(share):
        raise KeyboardInterrupt

    def work(begin, end):
        time.sleep(0.001)
        done.append(begin)

    before = threading.active_count()
    with pytest.raises(KeyboardInterrupt):
        in_blocks(work, 10_000, 1, stop)
    assert len(done) < 100
    assert threading.active_count() == before


def test_an_error_in_a_block_is_not_swallowed(monkeypatch):
    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    with pytest.raises(ZeroDivisionError):
        in_blocks(lambda begin, end: end / (begin - 3), 9, 1)
