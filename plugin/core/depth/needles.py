"""Faces so thin that the digits of site coordinates turn them over, taken out again.

Far from the origin a plan coordinate is a multiple of 1e-9 or so. Where planes all but coincide,
cutting can leave needles thinner than that; shifted to the site they may come out flat or turned
over. Corners that have become one place are joined. The middle corner of a needle lies on its
longest side: the face across that side is divided there, and the needle is left out.
"""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_ROUNDS = 64


def without_needles(xy: Floats, faces: Ints, flat: Ints) -> tuple[Ints, Ints]:
    """Return the faces without those that are flat or turned over.

    Parameters
    ----------
    xy : (n, 2) float
        Plan positions on the site.
    faces : (m, 3) int
        Meant to be counter-clockwise.
    flat : (j,) int
        Those that are not, and may be left out.

    Returns
    -------
    faces : (k, 3) int
        What is left, new faces at the end.
    rows : (k,) int
        Face given that each is (part of).
    """
    rows = np.arange(len(faces))
    may_go = np.zeros(len(faces), dtype=bool)
    may_go[flat] = True
    for _ in range(_ROUNDS):
        bad = np.flatnonzero(may_go)
        bad = bad[~(doubled_areas(xy, faces[bad]) > 0.0)]
        if not len(bad):
            break
        twins = _twins(xy, faces[bad])
        if len(twins):
            faces, picked = _joined(faces, twins)
            rows, may_go = rows[picked], may_go[picked]
            continue
        faces, picked, made = _round(xy, faces, bad.tolist())
        rows, may_go = rows[picked], may_go[picked]
        # The halves of a face beside a needle may be needles themselves.
        may_go[len(faces) - made :] = True
    return faces, rows


def _twins(xy: Floats, faces: Ints) -> Ints:
    """Return the pairs of corners of faces that are one place, the lower number first, (j, 2)."""
    pairs = np.vstack([faces[:, [k, (k + 1) % 3]] for k in range(3)])
    same = (xy[pairs[:, 0]] == xy[pairs[:, 1]]).all(axis=1)
    return np.unique(np.sort(pairs[same], axis=1), axis=0)


def _joined(faces: Ints, twins: Ints) -> tuple[Ints, Ints]:
    """Make the higher of each pair of corners the lower one; faces that have both vanish."""
    faces = faces.copy()
    for low, high in twins[::-1].tolist():
        faces[faces == high] = low
    one, two, three = faces.T
    kept = np.flatnonzero((one != two) & (two != three) & (three != one))
    return faces[kept], kept


def doubled_areas(xy: Floats, faces: Ints) -> Floats:
    """Return twice the plan area of faces, negative for those turned over."""
    first = xy[faces[:, 0]]
    u, v = xy[faces[:, 1]] - first, xy[faces[:, 2]] - first
    return u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]


def _round(xy: Floats, faces: Ints, bad: list[int]) -> tuple[Ints, Ints, int]:
    """Leave out needles, none of which is beside another; return also which face each was."""
    gone: set[int] = set()
    fresh: list[tuple[int, int, int]] = []
    owner: list[int] = []
    for face in bad:
        if face in gone:
            continue
        corners = xy[faces[face]]
        side = int(np.argmax([np.hypot(*(corners[k - 2] - corners[k])) for k in range(3)]))
        a, b, middle = (int(faces[face, (side + k) % 3]) for k in range(3))
        around = ((faces == a).any(axis=1) & (faces == b).any(axis=1)).nonzero()[0]
        across = [int(other) for other in around if other != face]
        if len(across) > 1 or any(other in gone for other in across):
            continue
        gone.add(face)
        for other in across:
            tip = next(int(v) for v in faces[other] if v not in (a, b))
            if tip == middle:  # its twin upside down: both vanish
                gone.add(other)
                continue
            gone.add(other)
            fresh += [(middle, a, tip), (b, middle, tip)]
            owner += [other, other]
    kept = np.setdiff1d(np.arange(len(faces)), np.fromiter(gone, dtype=np.int64, count=len(gone)))
    added = np.array(fresh, dtype=np.int64).reshape(-1, 3)
    return np.vstack((faces[kept], added)), np.append(kept, owner).astype(np.int64), len(added)
