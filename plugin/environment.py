"""Looks whether this Python can run Undercourse, before anything of it is imported.

Only the standard library and `core.text` are imported here: the sentence must reach the user
where numpy or shapely are missing, too old or broken.
"""

import sys
from collections.abc import Callable

from .core.text import translate

PYTHON = (3, 11)
SHAPELY = (2, 1)


def problem(platform: str = sys.platform) -> str | None:
    """Return the sentence that says what is missing and how to mend it, or None when fit.

    ``platform`` (as in ``sys.platform``) decides which remedy is told.
    """
    if sys.version_info < PYTHON:
        return translate(
            "Environment",
            "Undercourse needs Python 3.11 or newer, and this QGIS runs on {found}: {remedy}.",
        ).format(found="{}.{}".format(*sys.version_info), remedy=_newer_qgis(platform))
    for look in (_numpy, _shapely):
        found = look()
        if found:
            return translate(
                "Environment", "Undercourse cannot work in this QGIS because {found}: {remedy}."
            ).format(found=found, remedy=_newer_library(platform))
    return None


def _numpy() -> str | None:
    """Say what is wrong with numpy."""
    failure = _attempt(lambda: __import__("numpy").zeros(1))
    if failure is None:
        return None
    return translate("Environment", "numpy cannot be loaded ({why})").format(why=failure)


def _shapely() -> str | None:
    """Say what is wrong with shapely."""
    failure = _attempt(lambda: __import__("shapely"))
    if failure is not None:
        return translate("Environment", "shapely cannot be loaded ({why})").format(why=failure)
    version = str(getattr(__import__("shapely"), "__version__", "?"))
    if _numbers(version) < SHAPELY:
        return translate("Environment", "shapely is version {found} and 2.1 is needed").format(
            found=version
        )
    failure = _attempt(_round_trip)
    if failure is not None:
        # A shapely with a GEOS of its own beside the one QGIS has loaded.
        return translate(
            "Environment", "shapely {found} does not work together with it ({why})"
        ).format(found=version, why=failure)
    return None


def _round_trip() -> None:
    """Write a geometry as WKB and read it back."""
    import shapely

    there = shapely.linestrings([[0.5, 1.0, 2.0], [3.0, 4.0, 5.5]])
    written = shapely.to_wkb(there)
    back = shapely.from_wkb(written)
    if shapely.get_coordinates(back, include_z=True).tolist() != [[0.5, 1.0, 2.0], [3.0, 4.0, 5.5]]:
        message = "a line did not survive being written and read"
        raise ValueError(message)


def _attempt(action: Callable[[], object]) -> str | None:
    """Return the first line of the failure of an action, or None when it works."""
    try:
        action()
    except Exception as failure:  # noqa: BLE001 - a broken library may raise anything
        text = str(failure).strip() or type(failure).__name__
        return text.splitlines()[0].rstrip(".")
    return None


def _numbers(version: str) -> tuple[int, ...]:
    """Return the leading numbers of a version text."""
    numbers = []
    for part in version.split("."):
        if not part.isdecimal():
            break
        numbers.append(int(part))
    return tuple(numbers)


def _newer_qgis(platform: str) -> str:
    if platform.startswith("win"):
        return translate("Environment", "install QGIS 3.40 or newer with its current installer")
    if platform == "darwin":
        return translate("Environment", "install QGIS 3.40 or newer from its current disk image")
    return translate("Environment", "use Debian 12, Ubuntu 24.04 or newer with QGIS 3.40 or newer")


def _newer_library(platform: str) -> str:
    """Return the remedy; numpy stays at the version that the rest of QGIS was built for."""
    numpy = sys.modules.get("numpy")
    keep = '"numpy=={}"'.format(getattr(numpy, "__version__", "1.26.4"))
    if platform.startswith("win"):
        return translate(
            "Environment",
            "close QGIS, open the OSGeo4W Shell from its start menu folder, run: python -m pip install --upgrade {wanted} {keep} and start QGIS again",
        ).format(wanted='"shapely>=2.1"', keep=keep)
    if platform == "darwin":
        return translate(
            "Environment",
            "close QGIS, open Terminal, run: {python} -m pip install --upgrade {wanted} {keep} and start QGIS again",
        ).format(
            python="/Applications/QGIS.app/Contents/MacOS/bin/python3",
            wanted='"shapely>=2.1"',
            keep=keep,
        )
    return translate(
        "Environment",
        "close QGIS, run: sudo apt install python3-shapely and, where that is still older than 2.1, run: {build} and start QGIS again",
    ).format(
        build="sudo apt install libgeos-dev python3-dev g++ python3-pip && "
        "python3 -m pip install --user --break-system-packages --no-binary shapely "
        '"shapely>=2.1" ' + keep
    )
