"""Columns of attributes as numbers, with the feature named when one is unfit."""

import numpy as np
import pytest
from qgis.core import NULL

from plugin.core.errors import UndercourseError
from plugin.core.units import FOOT, METRE
from plugin.layers.tables import column_lengths, column_numbers, column_texts, is_null, read_table

from .shapes import memory_layer


def test_lengths_as_numbers_and_as_texts():
    """2.4 in is 0.2 ft (common field tables); 60 mm is 0.06 m by definition."""
    found = column_lengths([0.2, "0.2", "2.4 in", "0.2 ft", 1], [1, 2, 3, 4, 5], FOOT)
    np.testing.assert_array_equal(found, [0.2, 0.2, 0.2, 0.2, 1.0])
    np.testing.assert_array_equal(column_lengths(["60 mm", -0.5], [1, 2], METRE), [0.06, -0.5])


@pytest.mark.parametrize("value", [None, NULL, "", "  ", float("nan")])
def test_an_empty_length_is_refused_with_its_feature(value):
    with pytest.raises(UndercourseError, match="Feature 12 has no value in the field “depth”"):
        column_lengths([0.1, value], [11, 12], METRE, "depth")


def test_a_length_that_cannot_be_read_is_refused_with_its_feature():
    with pytest.raises(UndercourseError, match=r"Feature 12, field “depth”: .*bananas"):
        column_lengths([0.1, "3 bananas"], [11, 12], METRE, "depth")


def test_numbers():
    np.testing.assert_array_equal(
        column_numbers([1, "2.5", NULL], [1, 2, 3], null=9.0), [1, 2.5, 9]
    )
    with pytest.raises(UndercourseError, match="Feature 3 has no value"):
        column_numbers([1, 2, NULL], [1, 2, 3], "priority")
    with pytest.raises(
        UndercourseError, match="Feature 2, field “priority”: “high” is not a number"
    ):
        column_numbers([1, "high"], [1, 2], "priority")
    with pytest.raises(UndercourseError, match="“inf” is not a number"):
        column_numbers([float("inf")], [1])


def test_texts():
    assert column_texts([" lane ", NULL, None, 3], "-") == ["lane", "-", "-", "3"]


def test_nulls_as_qgis_gives_them(qgis_app):
    layer = memory_layer(
        "NoGeometry",
        [None, None],
        fields="&field=depth:double&field=name:string",
        rows=[(None, None), (0.5, "x")],
    )
    table = read_table(layer, ["depth", "name"])
    assert [is_null(value) for value in table.columns["depth"]] == [True, False]
    assert [is_null(value) for value in table.columns["name"]] == [True, False]
    assert table.ids.tolist() == [1, 2]
