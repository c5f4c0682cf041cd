"""Progress and cancelling, without a host.

Long operations take ``progress: Progress = silent`` and call it with the share done (0 to 1) at
least twice a second; the callee raises `Cancelled` when the user has asked to stop.
"""

from collections.abc import Callable

Progress = Callable[[float], None]


def silent(fraction: float) -> None:
    """Report nothing and never cancel."""


def part(progress: Progress, start: float, stop: float) -> Progress:
    """Return a progress whose 0..1 fills ``start..stop`` of the given one."""

    def report(fraction: float) -> None:
        progress(start + (stop - start) * min(max(fraction, 0.0), 1.0))

    return report
