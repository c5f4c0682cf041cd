"""A small north-up plan of a depth surface: zones shaded by depth, what reaches past them.

Bottoms carried on have a dashed edge, batters are hatched, so that a grey print tells them apart.
"""

from collections.abc import Sequence
from html import escape

import numpy as np
import shapely

from ..core.text import translate
from ..core.units import LinearUnit
from ..styles import palette
from .plan_marks import path_of

WIDTH, MOST_HEIGHT, MARGIN = 660.0, 460.0, 16.0
MOST_ZONES = 200
"""Of more zones than this no plan is drawn: nobody could read it."""
_FINEST = 0.4  # pixels
_LIGHT, _DARK = (243, 239, 230), (186, 150, 172)
_CARRIED = f'stroke="{palette.SLATE}" stroke-width="1.1" stroke-dasharray="5 3"'
_BATTER = f'fill="url(#batter)" fill-rule="evenodd" stroke="{palette.QUIET_TEXT}" stroke-width=".6"'
_PATTERN = (
    '<defs><pattern id="batter" width="5" height="5" patternUnits="userSpaceOnUse" '
    f'patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="5" stroke="{palette.SLATE}" '
    'stroke-width="1.1"/></pattern></defs>'
)
_KEY_WIDTH, _KEY_HEIGHT = 480.0, 24.0
_ROOM = 11.0  # pixels a zone must be wide for its number to be drawn
_ROOM_FOR_NAME = 60.0  # and for its name


def draw(
    polygons: Sequence[shapely.Geometry],
    numbers: Sequence[int],
    names: Sequence[str],
    depths: Sequence[float],
    extent: tuple[float, float, float, float],
    unit: LinearUnit,
    bottoms: Sequence[shapely.Geometry | None] = (),
    batters: Sequence[shapely.Geometry | None] = (),
) -> str:
    """Return the plan as an ``<svg>`` element.

    Parameters
    ----------
    polygons, numbers, names, depths
        The zones; deeper ones are darker. Small ones are labelled by number only.
    extent
        Smallest x, y and largest x, y of the surface, drawn as a frame.
    unit
        Plan unit, for the scale bar.
    bottoms
        Bottom of each zone that is carried on past its edge; None for the others.
    batters
        Where the batters of each zone lie; None for zones without.
    """
    west, south, east, north = extent
    across, up = max(east - west, 1e-9), max(north - south, 1e-9)
    scale = min((WIDTH - 2 * MARGIN) / across, (MOST_HEIGHT - 2 * MARGIN) / up)
    width, height = across * scale + 2 * MARGIN, up * scale + 2 * MARGIN + 22

    def pixels(xy: np.ndarray) -> np.ndarray:
        return np.column_stack(
            (MARGIN + (xy[:, 0] - west) * scale, MARGIN + (north - xy[:, 1]) * scale)
        )

    key = _key(bool(_some(bottoms)), bool(_some(batters)), height)
    height += _KEY_HEIGHT if key else 0
    width = max(width, _KEY_WIDTH) if key else width
    title = escape(translate("DepthReport", "Plan of the zones, north up, darker is deeper"))
    parts = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.0f}" height="{height:.0f}" '
            f'viewBox="0 0 {width:.0f} {height:.0f}" role="img"><title>{title}</title>'
        ),
        _PATTERN,
        (
            f'<rect x="{MARGIN}" y="{MARGIN}" width="{across * scale:.1f}" '
            f'height="{up * scale:.1f}" fill="none" stroke="{palette.MIST}" stroke-dasharray="4 3"/>'
        ),
    ]
    frame = shapely.box(west, south, east, north)
    words = []
    shades = _shades(depths)

    def drawn(shape: shapely.Geometry) -> shapely.Geometry:
        seen = shapely.intersection(shape, frame)
        return shapely.simplify(shapely.transform(seen, pixels), _FINEST)

    # Bottoms carried on lie below the zones, so that these keep their edge.
    for shape, shade in zip(bottoms, shades, strict=False):
        if shape is not None:
            parts.append(f'<path d="{path_of(drawn(shape))}" fill="{shade}" {_CARRIED}/>')
    for shape, number, name, shade in zip(polygons, numbers, names, shades, strict=True):
        flat = drawn(shape)
        if flat.is_empty or flat.area <= 0:
            continue
        parts.append(
            f'<path d="{path_of(flat)}" fill="{shade}" fill-rule="evenodd" '
            f'stroke="{palette.SLATE}" stroke-width="1"/>'
        )
        spot = shapely.maximum_inscribed_circle(_largest(flat), tolerance=1.0)
        if 2 * spot.length >= _ROOM:
            label = f"{number} {name}" if 2 * spot.length >= _ROOM_FOR_NAME else str(number)
            x, y = shapely.get_coordinates(spot)[0]
            words.append(
                f'<text x="{x:.1f}" y="{y + 4:.1f}" text-anchor="middle" font-size="12" '
                f'paint-order="stroke" stroke="#fff" stroke-width="3" fill="{palette.SLATE}">'
                f"{escape(label)}</text>"
            )
    parts += [f'<path d="{path_of(drawn(s))}" {_BATTER}/>' for s in _some(batters)]
    parts += [f'<path d="{path_of(drawn(s))}" fill="none" {_CARRIED}/>' for s in _some(bottoms)]
    bar = _scale_bar(scale, height - (_KEY_HEIGHT if key else 0), unit)
    return "".join([*parts, *words, bar, key, "</svg>"])


def _some(shapes: Sequence[shapely.Geometry | None]) -> list[shapely.Geometry]:
    return [shape for shape in shapes if shape is not None and not shape.is_empty]


def _key(carried: bool, battered: bool, height: float) -> str:
    """Explain the dashed edges and the hatching, as far as there are any."""
    if not (carried or battered):
        return ""
    samples = [
        (
            f'fill="none" stroke="{palette.SLATE}" stroke-width="1"',
            translate("DepthReport", "zone’s edge"),
        )
    ]
    if carried:
        samples.append((f'fill="none" {_CARRIED}', translate("DepthReport", "bottom carried on")))
    if battered:
        samples.append((_BATTER, translate("DepthReport", "batter")))
    parts = []
    for number, (look, text) in enumerate(samples):
        x, y = MARGIN + 160 * number, height + 9
        parts.append(
            f'<rect x="{x}" y="{y - 9}" width="24" height="11" {look}/>'
            f'<text x="{x + 30}" y="{y}" font-size="12" fill="{palette.QUIET_TEXT}">'
            f"{escape(text)}</text>"
        )
    return "".join(parts)


def _shades(depths: Sequence[float]) -> list[str]:
    low, high = min(depths, default=0.0), max(depths, default=0.0)
    span = high - low
    shades = []
    for depth in depths:
        share = (depth - low) / span if span > 0 else 0.5
        mixed = [round(a + share * (b - a)) for a, b in zip(_LIGHT, _DARK, strict=True)]
        shades.append(f"rgb({mixed[0]},{mixed[1]},{mixed[2]})")
    return shades


def _largest(shape: shapely.Geometry) -> shapely.Polygon:
    parts = shapely.get_parts(shape)
    return parts[int(shapely.area(parts).argmax())]


def _scale_bar(scale: float, height: float, unit: LinearUnit) -> str:
    """Draw a bar of a round length, about a sixth of the width."""
    wanted = WIDTH / 6 / scale
    power = 10.0 ** np.floor(np.log10(wanted))
    length = max(step * power for step in (1, 2, 5) if step * power <= wanted)
    x, y = MARGIN, height - 9
    return (
        f'<path d="M{x},{y - 4} V{y} H{x + length * scale:.1f} V{y - 4}" fill="none" '
        f'stroke="{palette.SLATE}" stroke-width="1.4"/>'
        f'<text x="{x + length * scale + 6:.1f}" y="{y + 1}" font-size="12" '
        f'fill="{palette.QUIET_TEXT}">{length:g} {escape(unit.symbol)}</text>'
    )
