"""The errors that core raises for input it cannot work with.

Every message is one sentence that says what is wrong, where it is (feature id, line, file
position) and what to do about it: it is shown to the user as it stands.
"""


class UndercourseError(ValueError):
    """Root of all errors that the input, not the program, has caused."""


class LengthTextError(UndercourseError):
    """A text that should be a length, grade, ratio or station cannot be read."""


class SurfaceError(UndercourseError):
    """A surface (TIN or grid) is not fit for the operation."""


class ZoneError(UndercourseError):
    """Zones overlap, lack a depth or cannot be used."""


class ScheduleError(UndercourseError):
    """A schedule of courses lacks something or cannot be read."""


class LineError(UndercourseError):
    """A line is not fit for the operation."""


class ExchangeError(UndercourseError):
    """An exchange file (LandXML, DXF, CSV) cannot be read or written."""


class Cancelled(Exception):  # noqa: N818 - it is a request, not an error
    """The user has asked the running operation to stop."""
