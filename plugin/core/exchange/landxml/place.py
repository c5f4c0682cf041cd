"""Places in a file, so that every error says where it is."""

from dataclasses import dataclass

from ...errors import ExchangeError
from ...text import translate


@dataclass(frozen=True)
class Place:
    """Where something stands in a file.

    Parameters
    ----------
    file
        Name of the file, without its folder.
    path
        Names of the elements from the root to the one in question.
    line
        Line on which that element starts, from 1.
    """

    file: str
    path: str
    line: int

    def error(self, what: str) -> ExchangeError:
        """Return the error that says ``what`` is wrong here."""
        return ExchangeError(f"{self.say(what)}")

    def say(self, what: str) -> str:
        """Return a sentence that says ``what`` is the matter here."""
        return translate("Core", "{file}, line {line}, {path}: {what}").format(
            file=self.file, line=self.line, path=self.path, what=what
        )

    def at(self, line: int) -> "Place":
        """Return the same element on another line."""
        return Place(self.file, self.path, int(line))
