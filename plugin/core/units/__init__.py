"""Lengths, grades and stations: read from what people write, said so that nobody mistakes them.

Two feet are in use and are never mixed silently: the international foot (0.3048 m) and the US
survey foot (1200/3937 m). `lengths` states which one a written ``ft`` means.
"""

from .grades import parse_batter, parse_grade, parse_ratio
from .lengths import describe_length, parse_length, parse_lengths
from .linear import (
    CENTIMETRE,
    FOOT,
    INCH,
    KILOMETRE,
    METRE,
    MILLIMETRE,
    US_SURVEY_FOOT,
    US_SURVEY_INCH,
    YARD,
    LinearUnit,
    unit_by_word,
    unit_of_metres,
)
from .stations import format_station, parse_station

__all__ = [
    "CENTIMETRE",
    "FOOT",
    "INCH",
    "KILOMETRE",
    "METRE",
    "MILLIMETRE",
    "US_SURVEY_FOOT",
    "US_SURVEY_INCH",
    "YARD",
    "LinearUnit",
    "describe_length",
    "format_station",
    "parse_batter",
    "parse_grade",
    "parse_length",
    "parse_lengths",
    "parse_ratio",
    "parse_station",
    "unit_by_word",
    "unit_of_metres",
]
