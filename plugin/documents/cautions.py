"""The cautions and conventions that stand on everything a digger may act on, in one place."""

from ..core.text import translate


def cautions() -> list[str]:
    """Return the cautions, one or two sentences each, in the user's language."""
    return [
        translate(
            "Report",
            "Have underground utilities located and marked before any digging.",
        ),
        translate(
            "Report",
            "Protect excavations against cave-in: a competent person inspects them before anyone enters and whenever conditions change.",
        ),
        translate(
            "Report",
            "Verify on a known point, in height and in plan, before automatics are engaged, and again whenever a file, a blade or a base station changes.",
        ),
        translate(
            "Report",
            "Local codes, the contract documents and the licensed professional in charge take precedence over this document.",
        ),
    ]


def conventions() -> list[tuple[str, str]]:
    """Return the (matter, rule) pairs that every document prints."""
    return [
        (
            translate("Report", "Depth"),
            translate("Report", "Positive is below the design; a minus sign raises."),
        ),
        (
            translate("Report", "Side"),
            translate(
                "Report",
                "Left or right of a line, looking from its first to its last vertex. Signed offset: + is right, - is left.",
            ),
        ),
        (
            translate("Report", "Thickness"),
            translate(
                "Report",
                "Depths are plumb: measured vertically, as a machine works. Those called square are measured at right angles to the design.",
            ),
        ),
        (
            translate("Report", "No data"),
            translate(
                "Report",
                "Outside the design there is no result, unless its slope was carried on, which is flagged.",
            ),
        ),
    ]
