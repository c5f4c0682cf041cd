"""Tables written as CSV."""

import csv

import numpy as np
import pytest

from plugin.core.errors import UndercourseError
from plugin.layers.csv_writing import write_csv


def test_a_table_is_written_in_utf_8_with_dots_and_empty_cells(tmp_path):
    path = tmp_path / "t.csv"
    write_csv(path, ["name", "x_ft"], [["Bordüre, Nord", 1.5], ["b", np.nan], ["c", None]])
    with path.open(encoding="utf-8", newline="") as file:
        assert list(csv.reader(file)) == [
            ["name", "x_ft"], ["Bordüre, Nord", "1.5"], ["b", ""], ["c", ""]
        ]  # fmt: skip


def test_large_coordinates_keep_their_digits(tmp_path):
    path = tmp_path / "t.csv"
    write_csv(path, ["x"], [[13712641.091234], [np.float64(2148484.0)], [np.int64(7)]])
    assert path.read_text().split() == ["x", "13712641.091234", "2148484", "7"]


def test_what_rounds_to_nothing_has_no_sign(tmp_path):
    path = tmp_path / "t.csv"
    write_csv(path, ["x"], [[-1e-9], [-0.0], [-1.5]])
    assert path.read_text().split() == ["x", "0", "0", "-1.5"]


def test_a_failure_half_way_leaves_the_older_file_alone(tmp_path):
    path = tmp_path / "t.csv"
    path.write_text("older\n")

    def rows():
        yield [1]
        raise RuntimeError("cancelled")

    with pytest.raises(RuntimeError):
        write_csv(path, ["a"], rows())
    assert path.read_text() == "older\n"
    assert [p.name for p in tmp_path.iterdir()] == ["t.csv"]


def test_a_folder_that_is_missing_is_told(tmp_path):
    with pytest.raises(UndercourseError, match="cannot be written"):
        write_csv(tmp_path / "none" / "t.csv", ["a"], [])
