"""Faces that the move turns over: joined away where possible, else the move is taken back."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...progress import Progress, silent
from .chains import Chains
from .joins import join_folds
from .mitre import Freedom
from .sheet import Sheet

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_MOST_ROUNDS = 200
_SMALLEST_SHARE = 0.05


def unfold(sheet: Sheet, progress: Progress = silent) -> None:
    """Join nodes until no face is folded, or no join is left that helps.

    Parameters
    ----------
    sheet : Sheet
        Its moves are found; changed in place.
    progress : Progress
        Told the share done.
    """
    folds = sheet.folded(np.flatnonzero(sheet.alive), sheet.places)
    most = max(len(folds), 1)
    changed = np.zeros(len(sheet.home), dtype=bool)
    for _ in range(_MOST_ROUNDS):
        progress(1.0 - min(len(folds) / most, 1.0))
        touched = join_folds(sheet, folds) if len(folds) else folds
        if len(touched):
            changed[touched] = True
            around = changed if not len(folds) else _mask(touched, len(changed))
        elif changed.any():
            # All planes that are left count now, those of faces that were folded on the way too.
            sheet.solve(changed)
            around, changed = changed, np.zeros_like(changed)
        else:
            return
        again = sheet.touching(around)
        folds = np.union1d(
            sheet.folded(again, sheet.places), np.setdiff1d(folds[sheet.alive[folds]], again)
        )
    sheet.solve(changed)


def _mask(rows: Ints, count: int) -> Flags:
    mask = np.zeros(count, dtype=bool)
    mask[rows] = True
    return mask


@dataclass(frozen=True, eq=False)
class Placed:
    """Where the nodes came to lie.

    Parameters
    ----------
    share : (k,) float
        Share of its plan move that each node was allowed.
    chainage : (k,) float
        Chainage of the nodes that slide along borders; NaN for others.
    """

    share: Floats
    chainage: Floats


def place(sheet: Sheet, chains: Chains) -> Placed:
    """Put the nodes in place, those on borders onto their chains, and take back what folds.

    The plan moves of the nodes of a folded face are halved, at last dropped, until no face is
    folded. Heights follow by least squares. Where nothing moves no face is folded, so this ends.

    Parameters
    ----------
    sheet : Sheet
        Changed in place: moves and residuals.
    chains : Chains
        Along which nodes of borders slide.
    """
    used = np.zeros(len(sheet.home), dtype=bool)
    used[sheet.nodes[sheet.alive]] = True
    wish = sheet.move[:, :2].copy()
    slides = np.flatnonzero(used & (sheet.freedom == Freedom.ALONG))
    distance = np.einsum("ij,ij->i", wish[slides], sheet.along[slides])
    share = np.ones(len(wish))
    chainage = np.full(len(wish), np.nan)

    def move(rows: Flags) -> None:
        sheet.move[rows, :2] = share[rows, None] * wish[rows]
        here = np.flatnonzero(rows[slides])
        nodes = slides[here]
        chainage[nodes] = chains.slid(sheet.point[nodes], share[nodes] * distance[here])
        off = chains.at(chainage[nodes]) - sheet.home[nodes, :2]
        off[chainage[nodes] == chains.chainage[chains.place[sheet.point[nodes]]]] = 0.0
        sheet.move[nodes, :2] = off

    move(used)
    shifted = np.zeros_like(used)
    shifted[slides] = np.abs(sheet.move[slides, :2] - wish[slides]).max(axis=1) > 0.0
    folds = sheet.folded(np.flatnonzero(sheet.alive), sheet.places)
    while len(folds):
        rows = _mask(sheet.nodes[folds].ravel(), len(used)) & (share > 0.0)
        rows &= sheet.freedom != Freedom.FIXED
        if not rows.any():
            break
        share[rows] = np.where(share[rows] > _SMALLEST_SHARE, 0.5 * share[rows], 0.0)
        move(rows)
        again = sheet.touching(rows)
        folds = np.union1d(sheet.folded(again, sheet.places), np.setdiff1d(folds, again))
    sheet.settle(shifted | (share < 1.0))
    return Placed(share, chainage)
