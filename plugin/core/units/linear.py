"""Units of length, held exactly.

Sources: EPSG 9001 (metre), 9002 (foot, 0.3048 m exactly), 9003 (US survey foot, 1200/3937 m).
"""

from dataclasses import dataclass
from fractions import Fraction

from ..errors import LengthTextError
from ..text import translate

SAME_UNIT = 1e-9
"""Relative difference up to which two factors are one unit. The two feet differ by 2e-6."""


@dataclass(frozen=True)
class LinearUnit:
    """A unit of length.

    Parameters
    ----------
    name
        English name, e.g. ``"US survey foot"``.
    symbol
        What is printed after a number, and can be read back: ``"m"``, ``"ft"``, ``"usft"``.
    metres
        Metres in one unit.
    """

    name: str
    symbol: str
    metres: float

    @property
    def exact(self) -> Fraction:
        """Metres in one unit as a ratio of integers: 1200/3937 for the US survey foot.

        A factor that no small ratio reproduces to the last bit is taken as the double it is.
        """
        ratio = Fraction(self.metres).limit_denominator(1_000_000)
        return ratio if float(ratio) == self.metres else Fraction(self.metres)

    @property
    def is_feet(self) -> bool:
        """True for the international and the US survey foot."""
        return self.same_as(FOOT) or self.same_as(US_SURVEY_FOOT)

    @property
    def foot(self) -> "LinearUnit":
        """The foot that a job in this unit means: the US survey foot in US survey units."""
        survey = (US_SURVEY_FOOT, US_SURVEY_INCH)
        return US_SURVEY_FOOT if any(self.same_as(unit) for unit in survey) else FOOT

    @property
    def base(self) -> "LinearUnit":
        """The unit to print in: a foot for feet, inches and yards, the metre for the rest."""
        imperial = (FOOT, INCH, YARD, US_SURVEY_FOOT, US_SURVEY_INCH)
        return self.foot if any(self.same_as(unit) for unit in imperial) else METRE

    def same_as(self, other: "LinearUnit") -> bool:
        """Return whether both are the same length, whatever they are called."""
        return abs(self.metres - other.metres) <= SAME_UNIT * other.metres

    def to(self, other: "LinearUnit") -> float:
        """Return the factor that turns a number in this unit into one in the other."""
        return 1.0 if self.same_as(other) else float(self.exact / other.exact)


METRE = LinearUnit("metre", "m", 1.0)
KILOMETRE = LinearUnit("kilometre", "km", 1000.0)
CENTIMETRE = LinearUnit("centimetre", "cm", 0.01)
MILLIMETRE = LinearUnit("millimetre", "mm", 0.001)
FOOT = LinearUnit("international foot", "ft", 0.3048)
INCH = LinearUnit("inch", "in", 0.0254)
YARD = LinearUnit("yard", "yd", 0.9144)
US_SURVEY_FOOT = LinearUnit("US survey foot", "usft", 1200 / 3937)
US_SURVEY_INCH = LinearUnit("US survey inch", "usin", 100 / 3937)

UNITS = (
    METRE,
    FOOT,
    US_SURVEY_FOOT,
    MILLIMETRE,
    CENTIMETRE,
    KILOMETRE,
    INCH,
    US_SURVEY_INCH,
    YARD,
)

WORDS: dict[str, LinearUnit] = {
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), METRE),
    **dict.fromkeys(("km", "kilometre", "kilometres", "kilometer", "kilometers"), KILOMETRE),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), CENTIMETRE),
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), MILLIMETRE),
    **dict.fromkeys(("ft", "foot", "feet", "'"), FOOT),
    **dict.fromkeys(("ift", "ftint", "international foot", "international feet"), FOOT),
    **dict.fromkeys(
        ("usft", "us-ft", "us ft", "ftus", "sft", "us survey foot", "us survey feet"),
        US_SURVEY_FOOT,
    ),
    **dict.fromkeys(("in", "inch", "inches", '"'), INCH),
    **dict.fromkeys(("usin", "us survey inch", "us survey inches"), US_SURVEY_INCH),
    **dict.fromkeys(("yd", "yard", "yards"), YARD),
}
"""What people write for a unit, in lower case and without a final full stop."""

FOLLOWS_JOB = frozenset(("ft", "foot", "feet", "'", "in", "inch", "inches", '"'))
"""Words that mean the job's own foot, and its twelfth, where the job has one."""


def unit_by_word(word: str, job: LinearUnit | None = None) -> LinearUnit:
    """Return the unit that a word means.

    Parameters
    ----------
    word
        E.g. ``"m"``, ``"ft"``, ``"usft"``, ``"inches"``; case does not matter.
    job
        The unit of the job. Where it is the US survey foot, a plain ``ft`` or ``in`` is the US
        survey foot or its twelfth; see `plugin.core.units.lengths`.

    Raises
    ------
    LengthTextError
        If no unit is called that.
    """
    key = " ".join(word.strip().lower().rstrip(".").split())
    if key not in WORDS:
        raise LengthTextError(
            translate(
                "Core",
                "'{word}' is not a known unit of length: write m, mm, cm, ft, in, usft (US survey foot) or ift (international foot).",  # noqa: E501
            ).format(word=word.strip())
        )
    unit = WORDS[key]
    if job is not None and key in FOLLOWS_JOB and job.foot.same_as(US_SURVEY_FOOT):
        return US_SURVEY_INCH if unit is INCH else US_SURVEY_FOOT
    return unit


def unit_of_metres(metres: float, name: str = "") -> LinearUnit:
    """Return the known unit of that many metres, or a new one called ``name``.

    Raises
    ------
    LengthTextError
        If the factor is not a positive finite number.
    """
    if not 0.0 < metres < float("inf"):
        raise LengthTextError(
            translate(
                "Core", "A unit of {metres} metres is no unit of length: set the job's unit."
            ).format(metres=metres)
        )
    for unit in UNITS:
        if abs(metres - unit.metres) <= SAME_UNIT * unit.metres:
            return unit
    return LinearUnit(name or f"{metres:.12g} m", name or "unit", float(metres))
