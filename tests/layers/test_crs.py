"""Units of a CRS, and what is refused.

Units of the EPSG codes: PROJ's database, as read by ``projinfo`` (EPSG 9002 and 9003 for the two
feet).
"""

import pytest
from qgis.core import QgsCoordinateReferenceSystem as Crs

from plugin.core.errors import UndercourseError
from plugin.core.units import FOOT, METRE, US_SURVEY_FOOT
from plugin.layers.crs import job_units, require_same_crs, same_plan

SURVEY = (2225, 2228, 2263, 2264, 2272, 2277, 2881, 6428, 6588)
INTERNATIONAL = (2222, 2223, 2251, 2273, 2281, 2913, 2992)


@pytest.mark.parametrize("code", SURVEY)
def test_us_survey_feet(qgis_app, code):
    assert job_units(Crs(f"EPSG:{code}")).plan is US_SURVEY_FOOT


@pytest.mark.parametrize("code", INTERNATIONAL)
def test_international_feet(qgis_app, code):
    assert job_units(Crs(f"EPSG:{code}")).plan is FOOT


@pytest.mark.parametrize("code", [6520, 25832, 32618])
def test_metres(qgis_app, code):
    units = job_units(Crs(f"EPSG:{code}"))
    assert units.plan is METRE
    assert units.vertical is METRE


def test_a_unit_of_its_own_keeps_its_length(qgis_app):
    """Clarke's foot: 0.3047972654 m (EPSG 9005)."""
    crs = Crs("EPSG:2314")  # Trinidad 1903 / Trinidad Grid (ftCla)
    assert crs.isValid()
    assert job_units(crs).plan.metres == pytest.approx(0.3047972654, rel=1e-12)


@pytest.mark.parametrize("code", [4326, 4269, 4979, 4978, 5703])
def test_what_is_no_plane_is_refused(qgis_app, code):
    with pytest.raises(UndercourseError, match="not a projected CRS"):
        job_units(Crs(f"EPSG:{code}"))


def test_no_crs_is_refused(qgis_app):
    with pytest.raises(UndercourseError, match="no coordinate reference system"):
        job_units(Crs())


@pytest.mark.parametrize(
    ("word", "unit"), [("metre", METRE), ("foot", FOOT), ("us_survey_foot", US_SURVEY_FOOT)]
)
def test_unit_of_heights_as_given(qgis_app, word, unit):
    units = job_units(Crs("EPSG:2263"), word)
    assert units.vertical is unit
    assert units.plan is US_SURVEY_FOOT


def test_unit_of_heights_of_a_compound_crs(qgis_app):
    """NAVD88 height in metres (EPSG 5703) and in US survey feet (EPSG 6360)."""
    for vertical, unit in ((5703, METRE), (6360, US_SURVEY_FOOT)):
        parts = ",".join(Crs(f"EPSG:{code}").toWkt() for code in (2263, vertical))
        crs = Crs.fromWkt(f'COMPD_CS["both",{parts}]')
        assert crs.isValid()
        assert job_units(crs).plan is US_SURVEY_FOOT
        assert job_units(crs).vertical is unit


def test_unknown_word_is_refused(qgis_app):
    with pytest.raises(UndercourseError, match=r"“chains” is unknown: .* us_survey_foot"):
        job_units(Crs("EPSG:2263"), "chains")


def test_a_second_surface_must_be_in_the_same_crs(qgis_app):
    feet, metres = Crs("EPSG:2263"), Crs("EPSG:32118")
    require_same_crs(feet, Crs("EPSG:2263"), "ground")
    assert not same_plan(feet, metres)
    with pytest.raises(UndercourseError, match=r"“ground” is in EPSG:32118"):
        require_same_crs(feet, metres, "ground")


def test_the_vertical_part_does_not_make_plans_differ(qgis_app):
    parts = ",".join(Crs(f"EPSG:{code}").toWkt() for code in (2263, 5703))
    assert same_plan(Crs.fromWkt(f'COMPD_CS["both",{parts}]'), Crs("EPSG:2263"))
