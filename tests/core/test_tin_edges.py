"""Edges of triangulations against brute force and trimesh."""

from collections import defaultdict

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.tin import Tin, pair_half_edges, pairing
from plugin.core.tin import edges as edges_module

from .tin_shapes import grid_faces, random_tin, square


def by_hand(faces):
    """Edges as a dictionary: ends -> faces in order."""
    table = defaultdict(list)
    for face, corners in enumerate(faces.tolist()):
        for k in range(3):
            table[tuple(sorted((corners[k], corners[(k + 1) % 3])))].append(face)
    return table


def check(faces):
    edges = pair_half_edges(faces)
    table = by_hand(faces)
    assert {tuple(ends) for ends in edges.ends.tolist()} == set(table)
    assert len(edges.ends) == len(table)
    crowded = {tuple(edges.ends[e]) for e in edges.nonmanifold.tolist()}
    assert crowded == {ends for ends, users in table.items() if len(users) > 2}
    for ends, pair in zip(edges.ends.tolist(), edges.faces.tolist(), strict=True):
        users = table[tuple(ends)]
        assert {face for face in pair if face >= 0} == {users[0], users[-1]}
        assert pair.count(-1) == (len(users) == 1)
    for face, (corners, sides) in enumerate(
        zip(faces.tolist(), edges.face_edges.tolist(), strict=True)
    ):
        for k in range(3):
            ends = sorted((corners[k], corners[(k + 1) % 3]))
            assert edges.ends[sides[k]].tolist() == ends
            users = [user for user in table[tuple(ends)] if user != face]
            expected = users[0] if len(users) == 1 else -1
            assert edges.neighbours[face, k] == expected
    return edges


def test_left_face_comes_first():
    tin = square()
    edges = tin.edges
    diagonal = edges.ends.tolist().index([0, 2])
    # Looking from vertex 0 to vertex 2 the upper face is on the left.
    assert edges.faces[diagonal].tolist() == [1, 0]
    bottom = edges.ends.tolist().index([0, 1])
    assert edges.faces[bottom].tolist() == [0, -1]
    left = edges.ends.tolist().index([0, 3])
    assert edges.faces[left].tolist() == [-1, 1]
    assert len(edges.boundary) == 4


@given(st.integers(0, 10**6), st.integers(3, 80))
@settings(max_examples=40, deadline=None)
def test_edges_of_random_tins_are_those_of_brute_force(seed, count):
    check(random_tin(seed, count + 3).faces)


@given(st.lists(st.permutations(range(6)).map(lambda p: p[:3]), min_size=1, max_size=30))
@settings(max_examples=60, deadline=None)
def test_edges_of_any_soup_are_those_of_brute_force(faces):
    check(np.array(faces))


@pytest.mark.parametrize("rounds", [2, 9])
def test_many_collisions_do_not_matter(monkeypatch, rounds):
    """All edges of a vertex want one place, in some rounds or in all of them."""
    dealt = pairing._place
    salts = set()

    def crowded(low, high, salt):
        salts.add(salt)
        return dealt(low, high, salt) & (~7 if salt < rounds else ~0)

    monkeypatch.setattr(pairing, "_place", crowded)
    check(random_tin(5, 200).faces)
    assert len(salts) > 2


def test_faces_of_few_of_many_vertices():
    faces = random_tin(5, 50).faces
    check(faces * 100_000_000 // len(faces))


@pytest.mark.parametrize("rounds", [0, 1, 4])
def test_neither_blocks_nor_rounds_matter(monkeypatch, rounds):
    rng = np.random.default_rng(6)
    faces = np.concatenate((random_tin(6, 300).faces, rng.permutation(300).reshape(-1, 3)))
    faces = np.concatenate((faces, faces[:9, ::-1], faces[5:12], faces[200:205, [0, 2, 1]]))
    whole = pair_half_edges(faces)
    monkeypatch.setattr(edges_module, "_BLOCK", 7)
    monkeypatch.setattr(pairing, "_BLOCK", 7)
    monkeypatch.setattr(pairing, "_SOME", 5)
    monkeypatch.setattr(pairing, "_ROUNDS", rounds)
    parts = pair_half_edges(faces)
    check(faces)
    assert len(whole.nonmanifold)
    assert np.array_equal(whole.ends, parts.ends)
    assert np.array_equal(whole.faces, parts.faces)
    assert np.array_equal(whole.face_edges, parts.face_edges)


def test_adjacency_is_that_of_trimesh():
    """Reference library: trimesh, face_adjacency."""
    rng = np.random.default_rng(8)
    order = rng.permutation(40 * 30)
    faces = order[grid_faces(40, 30)][rng.permutation(39 * 29 * 2)]
    mesh = trimesh.Trimesh(rng.random((1200, 3)), faces, process=False)
    edges = pair_half_edges(faces)
    inner = (edges.faces >= 0).all(axis=1)
    ours = np.unique(np.sort(edges.faces[inner], axis=1), axis=0)
    assert np.array_equal(ours, np.unique(np.sort(mesh.face_adjacency, axis=1), axis=0))


def test_three_faces_at_an_edge():
    faces = np.array([(0, 1, 2), (1, 0, 3), (0, 1, 4)])
    edges = pair_half_edges(faces)
    assert edges.ends[edges.nonmanifold].tolist() == [[0, 1]]
    assert (edges.neighbours == -1).all()
    assert edges.faces[edges.nonmanifold].tolist() == [[0, 2]]


def test_arrays_are_read_only():
    tin = square()
    for array in (tin.vertices, tin.faces, tin.edges.ends, tin.edges.faces, tin.neighbours):
        with pytest.raises(ValueError, match="read-only"):
            array[0] = 0


def test_the_input_is_not_modified():
    vertices = np.array([(0.0, 0, 0), (0, 1, 0), (1, 0, 0)])
    faces = np.array([(0, 1, 2)])
    tin = Tin.from_arrays(vertices, faces)
    assert faces.tolist() == [[0, 1, 2]]
    assert tin.faces.tolist() != faces.tolist()
    vertices[0] = 9.0
    assert tin.vertices[0].tolist() == [0, 0, 0]
