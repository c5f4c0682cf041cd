"""Collecting what may be wrong, each kind of it once per place that a user would look at."""

from ...findings import Finding


class Notes:
    """A list of findings that grows while a file is read."""

    def __init__(self) -> None:
        self.findings: list[Finding] = []

    def add(self, code: str, why: str, place: tuple[float, float] | None = None) -> None:
        """Add one."""
        self.findings.append(Finding(code, why, place))
