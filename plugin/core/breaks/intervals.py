"""Unions and differences of many intervals at once, each on an axis of its owner's."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Intervals:
    """Intervals ``start .. stop`` of owners, three (k,) arrays; those with no length count not."""

    owner: Ints
    start: Floats
    stop: Floats


def less(whole: Intervals, taken: Intervals) -> Intervals:
    """Return what is left of the intervals; those of one owner may overlap, and are then united."""
    if not len(taken.owner):
        return whole
    owner, start, stop, depth = _swept(whole, taken)
    left = (depth[0] > 0) & (depth[1] == 0)
    return Intervals(owner[left], start[left], stop[left])


def pieces(every: Intervals, *covers: Intervals, slack: float) -> tuple[Intervals, Ints]:
    """Cut intervals where their covers begin or end.

    Parameters
    ----------
    every
        One interval for each owner.
    covers
        Intervals of the same owners, in any order; those of one cover may overlap.
    slack
        Pieces no longer than this go to their neighbour.

    Returns
    -------
    cut : Intervals
        In order along each owner, without gaps.
    state : (k,) int
        How many of the covers hold; it changes from each piece of an owner to the next.
    """
    owner, start, stop, depth = _swept(every, *covers)
    kept = (depth[0] > 0) & (stop - start > slack)
    state = (depth[1:, kept] > 0).sum(axis=0)
    cut, state = joined(Intervals(owner[kept], start[kept], stop[kept]), state)
    # What was too short is gone: a piece begins where the one before ends.
    row = np.zeros(every.owner.max(initial=-1) + 1, np.int64)
    row[every.owner] = np.arange(len(every.owner))
    begin, end = every.start[row[cut.owner]], every.stop[row[cut.owner]]
    inner = np.flatnonzero(cut.owner[1:] == cut.owner[:-1]) + 1
    begin[inner] = cut.start[inner]
    end[inner - 1] = cut.start[inner]
    return Intervals(cut.owner, begin, end), state


def joined(cut: Intervals, state: Ints) -> tuple[Intervals, Ints]:
    """Join the pieces of an owner that follow each other and have the same state."""
    begins = np.ones(len(state), bool)
    begins[1:] = (cut.owner[1:] != cut.owner[:-1]) | (state[1:] != state[:-1])
    ends = np.ones(len(state), bool)
    ends[:-1] = begins[1:]
    return Intervals(cut.owner[begins], cut.start[begins], cut.stop[ends]), state[begins]


def _swept(*layers: Intervals) -> tuple[Ints, Floats, Floats, Ints]:
    """Return the elementary pieces of all owners, and how many intervals of each layer hold each.

    Returns
    -------
    owner, start, stop : (p,) arrays
    depth : (layers, p) int
    """
    owner = np.concatenate([each.owner for each in layers for _ in (0, 1)])
    place = np.concatenate([ends for each in layers for ends in (each.start, each.stop)])
    change = np.zeros((len(layers), len(owner)), np.int64)
    begin = 0
    for number, each in enumerate(layers):
        count = len(each.owner)
        real = (each.stop > each.start).astype(np.int64)
        change[number, begin : begin + count] = real
        change[number, begin + count : begin + 2 * count] = -real
        begin += 2 * count
    order = np.lexsort((place, owner))
    owner, place = owner[order], place[order]
    depth = np.cumsum(change[:, order], axis=1)
    real = (owner[1:] == owner[:-1]) & (place[1:] > place[:-1])
    return owner[:-1][real], place[:-1][real], place[1:][real], depth[:, :-1][:, real]
