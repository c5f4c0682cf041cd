"""Reading in blocks gives what reading element by element gives, bit for bit."""

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from plugin.core.errors import ExchangeError
from plugin.core.exchange.landxml import bulk, scan

from .landxml_texts import codes, landxml, read, surface

ROUGH = settings(
    deadline=None, max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
VALUES = st.one_of(
    st.integers(-10_000_000, 10_000_000).map(float),
    st.floats(-1e7, 1e7, allow_nan=False).map(lambda value: round(value, 4)),
    st.floats(-1e12, 1e12, allow_nan=False),
)
EXACT = ("{!r}", "{:.17g}", "{!r}")
"""Formats that give a double back exactly."""


def random_surface(data, count):
    """Return vertices, faces and ids of a fan of triangles with any coordinates at all."""
    rows = data.draw(st.lists(st.tuples(VALUES, VALUES, VALUES), min_size=count, max_size=count))
    ids = data.draw(st.lists(st.integers(1, 10**9), min_size=count, max_size=count, unique=True))
    faces = [(0, k, k + 1) for k in range(1, count - 1)]
    return rows, faces, ids


def text_of(data, rows, faces, ids):
    form = data.draw(st.sampled_from(EXACT))
    gap = data.draw(st.sampled_from(["\n", "\r\n", "", "\n\t\t", " "]))
    marks = data.draw(st.booleans())
    points = gap.join(
        f'<P id="{number}">{" ".join(form.format(value) for value in (y, x, z))}</P>'
        for number, (x, y, z) in zip(ids, rows, strict=True)
    )
    lines = gap.join(
        f"<F{' n=' + chr(34) + '1 0 2' + chr(34) if marks and k % 2 else ''}"
        f"{' i=' + chr(34) + '1' + chr(34) if marks and k % 3 == 1 else ''}>"
        f"{ids[a]} {ids[b]} {ids[c]}</F>"
        for k, (a, b, c) in enumerate(faces)
    )
    return landxml(surface(points, lines))


def outcome(tmp_path, text, **options):
    """Return what reading gives: the arrays, or the sentence."""
    try:
        file = read(tmp_path, text, **options)
    except ExchangeError as error:
        return str(error)
    record = file.surfaces[0]
    return (
        record.tin.vertices.tobytes(),
        record.tin.faces.tobytes(),
        record.hidden_count,
        record.unused.tobytes(),
        record.unused_ids.tobytes(),
        tuple(finding.why for finding in file.findings),
    )


@ROUGH
@given(data=st.data())
def test_any_surface_comes_back_exactly_both_ways(tmp_path, monkeypatch, data):
    # Chunks so small that each list is cut many times, at any byte.
    monkeypatch.setattr(scan, "CHUNK", data.draw(st.integers(40, 700)))
    rows, faces, ids = random_surface(data, data.draw(st.integers(3, 40)))
    text = text_of(data, rows, faces, ids)
    slow = outcome(tmp_path, text, in_blocks=False)
    assert outcome(tmp_path, text, in_blocks=True) == slow
    if isinstance(slow, tuple):
        found = np.frombuffer(slow[0]).reshape(-1, 3)
        wanted = np.array(rows)
        assert {row.tobytes() for row in found} <= {row.tobytes() for row in wanted}


def test_a_triangulation_written_and_read_back_is_the_same(tmp_path, monkeypatch):
    monkeypatch.setattr(scan, "CHUNK", 5000)
    rng = np.random.default_rng(3)
    vertices = np.column_stack(
        (rng.uniform(4e5, 4.1e5, 500), rng.uniform(5e6, 5.1e6, 500), rng.normal(80, 3, 500))
    )
    import shapely

    triangles = shapely.delaunay_triangles(shapely.MultiPoint(vertices[:, :2]))
    corners = shapely.get_coordinates(triangles).reshape(-1, 4, 2)[:, :3]
    lookup = {tuple(row): k for k, row in enumerate(vertices[:, :2].tolist())}
    faces = np.array([[lookup[tuple(xy)] for xy in row] for row in corners.tolist()])
    points = "\n".join(
        f'<P id="{k + 1}">{y!r} {x!r} {z!r}</P>' for k, (x, y, z) in enumerate(vertices.tolist())
    )
    lines = "\n".join("<F>{} {} {}</F>".format(*row) for row in (faces + 1).tolist())
    tin = read(tmp_path, landxml(surface(points, lines))).surfaces[0].tin
    assert np.array_equal(tin.vertices, vertices)
    assert [sorted(row) for row in tin.faces.tolist()] == [sorted(row) for row in faces.tolist()]


FAULTS = [
    ('<P id="40">40 0 1</P>', '<P id="40">40 0</P>'),
    ('<P id="40">40 0 1</P>', '<P id="40">40  1</P>'),
    ('<P id="40">40 0 1</P>', '<P id="">40 0 1</P>'),
    ('<P id="40">40 0 1</P>', '<P id="40">40 0-5 1</P>'),
    ('<P id="40">40 0 1</P>', '<P id="40">40 . 1</P>'),
    ('<P id="40">40 0 1</P>', '<P id="-40">40 0 1</P>'),
    ('<P id="40">40 0 1</P>', '<P id="40">40 0 1 1</P>'),
    ('<P id="40">40 0 1</P>', '<P5 id="40">40 0 1</P5>'),
    ('<P id="40">40 0 1</P>', '<P id="40">40 0 1</P>5'),
    # As many numbers as there should be, one missing and one astray.
    (
        '<P id="40">40 0 1</P>\n<P id="41">41 0 1</P>',
        '<P id="40">40  1</P>\n<P id="41">41 0 1</P>7',
    ),
    ("<F>40 41 140</F>", "<G>40 41 140</G>"),
    ("<F>40 41 140</F>", "<F>40 41</F>"),
    ("<F>40 41 140</F>", "<F>40  140</F>"),
    ("<F>40 41 140</F>", "<F>40 41 -140</F>"),
    ("<F>40 41 140</F>", "<F>40 41 14.0</F>"),
    ("<F>40 41 140</F>", "<F>40 41 99999</F>"),
    ("<F>40 41 140</F>", "<F>40 41 140 7</F>"),
    ("<F>40 41 140</F>", '<F i="1">40 41 140</F>'),
    ("<F>40 41 140</F>", '<F i="0" n="1 2 0">40 41 140</F>'),
    ("<F>40 41 140</F>", "<F>40 41 140</F><!-- <F>1 2 100</F> -->"),
    ("<F>40 41 140</F>", "<F>40 41 140</F><!-- > -->"),
    ("<F>40 41 140</F>", "<F>40 41 140</F><?go <F>1 2 100</F> ?>"),
    ("<F>40 41 140</F>", "<F>40 41 140</F><![CDATA[ <F>1 2 100</F> ]]>"),
    ("<F>40 41 140</F>", '<F>40 41 140</F><Feature code="a>b"/>'),
]


def strip_surface():
    points = "\n".join(
        f'<P id="{row * 100 + k}">{k} {row} {1 + row * 0.5}</P>'.replace(" 1.0<", " 1<")
        for row in range(2)
        for k in range(1, 100)
    )
    faces = "\n".join(
        f"<F>{k} {k + 1} {k + 100}</F>\n<F>{k + 1} {k + 101} {k + 100}</F>" for k in range(1, 99)
    )
    return landxml(surface(points, faces))


@pytest.mark.parametrize("chunk", [60, 97, 256, 900, 1 << 19])
@pytest.mark.parametrize(("right", "wrong"), FAULTS)
def test_a_fault_in_the_middle_of_a_list_is_found_both_ways(
    tmp_path, monkeypatch, right, wrong, chunk
):
    monkeypatch.setattr(scan, "CHUNK", chunk)
    text = strip_surface()
    assert text.count(right) == 1
    text = text.replace(right, wrong)
    slow = outcome(tmp_path, text, in_blocks=False)
    assert outcome(tmp_path, text, in_blocks=True) == slow
    if isinstance(slow, str) and "P5" not in wrong:
        number = text[: text.index(wrong)].count("\n") + 1
        assert f"line {number}" in slow


@pytest.mark.parametrize("marks", [("<!--", "-->"), ("<![CDATA[", "]]>"), ("<?go", "?>")])
def test_what_is_hidden_over_many_chunks_stays_hidden(tmp_path, monkeypatch, marks):
    monkeypatch.setattr(scan, "CHUNK", 128)
    hidden = "\n".join(f"<F>{k} {k + 1} {k + 2}</F>" for k in range(1, 60))
    text = strip_surface().replace("<F>40 41 140</F>", f"{marks[0]}\n{hidden}\n{marks[1]}")
    assert len(read(tmp_path, text).surfaces[0].tin.faces) == 2 * 98 - 1


def test_blocks_are_really_used(tmp_path, monkeypatch):
    monkeypatch.setattr(scan, "CHUNK", 512)
    rows = []
    whole = bulk.read_block

    def counting(*arguments):
        block = whole(*arguments)
        rows.append(0 if block is None else len(block.values))
        return block

    monkeypatch.setattr(bulk, "read_block", counting)
    text = strip_surface().replace("<F>40 41 140</F>", '<F n="1 2 3" b="1" i="1">40 41 140</F>')
    file = read(tmp_path, text)
    assert codes(file) == [] and file.surfaces[0].hidden_count == 1
    # All but the first and last stretch of each of the two lists.
    assert sum(rows) > 0.75 * (198 + 196)


def test_lines_are_counted_in_blocks_with_any_line_end():
    data = b'\r\n<P id="1">1 2 3</P>\r\n<P id="2">4 5 6</P>\r\n'
    block = bulk.read_block(data, "P", 10)
    assert block.lines.tolist() == [11, 12]
    assert bulk.count_lines(b"a\rb\r\nc\n") == 3


def test_a_block_of_another_element_is_left_alone():
    assert bulk.read_block(b"<X>1 2 3</X>", "X", 1) is None
