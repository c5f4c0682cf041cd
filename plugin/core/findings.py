"""What a run has to say about places where its input or its result may be wrong."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Finding:
    """One thing that may be wrong, with its place.

    Parameters
    ----------
    code
        Short lower-case word for filters and styles, e.g. ``"overlap"``; never translated.
    why
        One sentence for people: what is wrong, where, what to do.
    place
        Plan position (x, y), or None when it has none.
    feature
        Id of the feature it is about, or None.
    """

    code: str
    why: str
    place: tuple[float, float] | None = None
    feature: int | None = None
