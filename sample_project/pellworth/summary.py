"""What the main job has made, in a short table, compared with what the figures state.

The comparison is made here from the stated figures alone, with numpy, shapely and GDAL, and not
by the plugin that made the results.
"""

import numpy as np
import shapely
from osgeo import gdal, ogr

from plugin.core.units import US_SURVEY_FOOT, describe_length
from plugin.layers.ply import read_ply

from . import figures as f
from .dug import Dug, feet
from .points import ground_at
from .surface import KINDS, build

gdal.UseExceptions()
ogr.UseExceptions()

MOVE = 1e-3
"""Largest plan distance (ft) of a zone border in the results from where it was drawn."""


STEP = 5e-3
"""Faces narrower than this (ft) are steps between depths: 0.001 ft, a little more at corners."""


NO_VALUE = -9000.0
"""Pixels below have no data."""

ROUNDING = 1e-4
"""Heights of 500 ft as float32 differ by this much (ft) for rounding alone."""


class Ledger:
    """Rows of the table, and the figures that are off."""

    def __init__(self):
        self.rows, self.off = [], []

    def row(self, file, what, *figures):
        self.rows.append((file, what, figures))

    def check(self, what, found, stated, tolerance):
        """Note a figure that is further than the tolerance from the stated one."""
        if not abs(found - stated) <= tolerance:
            self.off.append(f"   {what}: {found:.6g}, stated {stated:.6g} (+/- {tolerance:g})")
        return found


def _lines(path):
    """Return the attributes and the 3D coordinates of each line of a layer."""
    source = ogr.Open(str(path))
    return [
        (feature.items(), np.array(feature.GetGeometryRef().GetPoints()))
        for feature in source.GetLayer(0)
    ]


def _faces(path):
    """Return corners, plan area and middle of the faces of a surface that are not steps."""
    mesh = read_ply(path)
    corner = mesh.vertices[mesh.faces]
    a, b = corner[:, 1] - corner[:, 0], corner[:, 2] - corner[:, 0]
    area = np.abs(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]) / 2
    # The steps between zones are narrower than this; their slope has no depth of its own.
    width = 2 * area / np.sqrt(((corner - np.roll(corner, 1, axis=1))[..., :2] ** 2).sum(2)).max(1)
    return area, corner.mean(axis=1), width > STEP


def _depth_tin(ledger, dug, result, out):
    """Compare the depth surface with the truth at the middle of every face."""
    area, middle, flat = _faces(out / "depth.ply")
    stated, depth, sure = dug.heights(middle[:, :2])
    on = np.isfinite(stated)
    wrong = np.abs(middle[:, 2] - stated)[flat & sure & on]
    ledger.check("depth.ply: largest difference from the stated depth, ft", wrong.max(), 0, 1e-5)
    total = shapely.Polygon(dug.site.outline[:, :2])
    ledger.check("depth.ply: plan area, sq ft", area[on].sum(), total.area, 0.05)
    beyond = [dug.shapes[s].buffer(feet(w), join_style="mitre") for s, w in f.WIDEN.items()]
    past = shapely.union_all(beyond).difference(total).area
    ledger.check("depth.ply: area past the design, sq ft", area[~on].sum(), past, 0.05 * past)
    ledger.check("depth.ply: largest move of a border, ft", result["LARGEST_MOVE"], 0, MOVE)
    side = stated < dug.site.heights(middle[:, :2]) - depth - 1e-9
    ledger.row(
        "depth.ply, depth_faces.gpkg",
        "surface as dug (TIN): depths, bottoms carried on, sides of the rain garden",
        f"{len(area):,} faces, {area.sum():,.2f} sq ft, flagged {result['FLAG_COUNT']}",
        f"{area[side].sum():,.1f} sq ft of sides 1.5:1; {past:,.1f} sq ft past the plan's edge",
        f"largest difference from the stated surface {wrong.max():.1e} ft",
    )
    return [(name, shape.area, dug.depths[name]) for name, shape in dug.shapes.items()]


def _depth_raster(ledger, dug, out, data):
    """Compare the lowered raster with the given one, pixel by pixel."""
    before, after = (
        gdal.Open(str(path)) for path in (data / "pellworth_design.tif", out / "depth.tif")
    )
    left, width, _, top, _, height = before.GetGeoTransform()
    if after.GetGeoTransform() != before.GetGeoTransform():
        ledger.off.append("   depth.tif: its grid is not the one of the design")
        return
    z, low = before.ReadAsArray(), after.ReadAsArray()
    rows, columns = np.nonzero(z != before.GetRasterBand(1).GetNoDataValue())
    xy = np.stack([left + (columns + 0.5) * width, top + (rows + 0.5) * height], axis=1)
    depth, sure = dug.depth(xy)
    given = z[rows, columns].astype(float)
    on_side = dug.side(xy) < given - depth + 0.5
    stated = np.minimum(given - depth, dug.side(xy))
    error = np.abs(low[rows, columns].astype(float) - stated)
    wrong, rough = error[sure & ~on_side].max(), error[sure & on_side].max()
    ledger.check("depth.tif: largest difference from the stated depth, ft", wrong, 0, 1e-4)
    # A raster knows the rim only by the heights of the pixels around it.
    ledger.check("depth.tif: largest difference on the garden's sides, ft", rough, 0, 0.15)
    ledger.row(
        "depth.tif",
        "the same as a raster of 1 ft",
        f"{len(rows):,} pixels",
        f"largest difference from the stated surface {wrong:.1e} ft, {rough:.2f} ft on the sides",
    )


def _ground(ledger, dug, results, out, data):
    """Compare volumes to the ground with those of pixels, and look at what the review says."""
    raster = gdal.Open(str(data / "pellworth_design.tif"))
    left, width, _, top, _, height = raster.GetGeoTransform()
    rows, columns = np.nonzero(raster.ReadAsArray() != raster.GetRasterBand(1).GetNoDataValue())
    xy = np.stack([left + (columns + 0.5) * width, top + (rows + 0.5) * height], axis=1)
    low, _, _ = dug.heights(xy)
    zones = shapely.union_all([shapely.Polygon(z.rings[0], z.rings[1:]) for z in dug.site.zones])
    inside = np.isfinite(low) & shapely.contains_xy(zones, xy)
    apart = (ground_at(xy[inside]) - low[inside]) * width * -height
    found = results["ground_volumes"]
    for what, stated in (("CUT", apart[apart > 0].sum()), ("FILL", -apart[apart < 0].sum())):
        # Pixels know the edges of bottoms and of the site to half a foot.
        ledger.check(f"ground volumes: {what.lower()}, cu ft", found[what], stated, 0.01 * stated)
    ledger.row(
        "ground_volumes*.gpkg, .html",
        "existing ground above the surface as dug",
        f"cut {found['CUT_YD3']:,.0f} cu yd, fill {found['FILL_YD3']:,.0f} cu yd",
    )
    sections = results["sections"]
    ledger.row(
        "sections*.gpkg, .csv, .pdf, .html",
        "sections across the lane",
        f"{sections['SECTION_COUNT']} sections, cut {sections['CUT_EXACT'] / 27:,.0f} cu yd beside it",
    )
    page = (out / "review.html").read_text(encoding="utf-8")
    verdicts = page[: page.index('<section class="bound"')]
    count = len(dug.site.zones)
    ledger.check("review: zones that pass", verdicts.count(": PASS."), count, 0)
    ledger.check("review: rules that fail", verdicts.count("FAILS"), 0, 0)
    ledger.row(
        "review*.gpkg, .html",
        "review of depth, grades and design by a model",
        f"{count} zones are deep enough, the walk stays under 1:48",
    )


def _agreement(ledger, out):
    """Compare the surface as dug, laid on the grid, with what the raster design gave."""
    mesh, raster = (
        gdal.Open(str(out / name)).ReadAsArray() for name in ("depth_pixels.tif", "depth.tif")
    )
    both = (mesh > NO_VALUE) & (raster > NO_VALUE)
    apart = np.abs(mesh.astype(float) - raster)[both]
    same = float((apart <= ROUNDING).mean())
    ledger.check("depth_pixels.tif: share that agrees with depth.tif", same, 1, 0.01)
    ledger.row(
        "depth_pixels.tif",
        "the TIN on the same grid",
        f"{100 * same:.2f} % of {both.sum():,} pixels agree with the raster to {ROUNDING:g} ft;",
        "the rest lies on the garden's sides, whose rim a raster knows only roughly",
    )


def _courses(ledger, dug, result, below, out):
    """Compare areas and volumes of the courses with the stated thicknesses."""
    ledger.check("courses: surfaces", result["INTERFACE_COUNT"], 3, 0)
    volume = result["VOLUME"]
    # Past the plan's edge the courses end in steps of 0.001 ft, the bottom of depth.ply in none.
    ledger.check("courses: volume, cu ft", volume, below["VOLUME_BELOW"], 1e-5 * volume)
    source = ogr.Open(str(out / "course_quantities.gpkg"))
    rows = [feature.items() for feature in source.GetLayer(0)]
    total = sum(row["volume"] for row in rows)
    ledger.check("courses: sum of the volumes, cu ft", total, volume, 1e-6 * volume)
    top = [row for row in rows if row["section"] == "planting strip" and row["volume"]]
    found = sum(row["volume"] for row in top)
    stated = dug.shapes["planting strip"].area * dug.depths["planting strip"]
    ledger.check("courses: planting soil, cu ft", found, stated, 0.002 * stated)
    ledger.row(
        "courses/, course_faces.gpkg, ...",
        "surfaces between the courses of the schedule, quantities, report with sections",
        f"{result['INTERFACE_COUNT']} surfaces, {volume / 27:,.1f} cu yd, "
        f"{result['LOOSE_VOLUME'] / 27:,.1f} cu yd loose, {result['TONNES']:,.0f} t",
    )


def _guidelines(ledger, name, result, lines, offset, side, out):
    """Prove distance and side of guidelines against the drawn lines and the centreline."""
    words = {"toward": "toward", "away": "away from"}
    found = _lines(out / f"{name}.gpkg")
    ledger.check(f"{name}: guidelines", len(found), len(lines), 0)
    ledger.check(f"{name}: flagged", result["FLAGGED_COUNT"], 0, 0)
    crown = shapely.LineString(f.place(f.stations(), 0.0))
    worst = 0.0
    for (_, points), drawn in zip(found, lines, strict=False):
        source, guide = shapely.LineString(drawn[:, :2]), shapely.LineString(points[:, :2])
        apart = shapely.distance(shapely.points(points[:, :2]), source)
        nearest = source.distance(shapely.points(guide.interpolate(0.5, normalized=True).coords[0]))
        # On the outside of a bend the mitred corner lies a little further out than the offset.
        worst = max(worst, offset - apart.min(), abs(nearest - offset))
        nearer = crown.distance(guide) - crown.distance(source)
        if (nearer < 0) != (side == "toward"):
            ledger.off.append(f"   {name}: a guideline lies on the wrong side")
    ledger.check(f"{name}: largest error of the distance, ft", worst, 0, 1e-6)
    ledger.row(
        f"{name}.gpkg, .html",
        f"guidelines, {offset:g} ft {words[side]} the lane",
        f"{len(found)} lines, {sum(item['length'] for item, _ in found):,.1f} ft",
        f"flagged {result['FLAGGED_COUNT']}, largest error {worst:.1e} ft",
    )


def _field(ledger, dug, results):
    """Prove what follows from the lines: directions, checks of sides, stakes, passes."""
    turned = results["oriented"]
    ledger.check("oriented: lines turned round", turned["FLIPPED_COUNT"], 1, 0)
    ledger.check("oriented: flagged", turned["FLAGGED_COUNT"], 0, 0)
    for name in ("strip", "curb"):
        checked = results[f"checked_{name}"]
        ledger.check(f"checked_{name}: pass", checked["PASS_COUNT"], 2, 0)
        ledger.check(f"checked_{name}: fail", checked["FAIL_COUNT"], 0, 0)
    ledger.row(
        "oriented.gpkg, checked_*.gpkg, .html",
        "curb lines in one direction, guidelines checked against their lines",
        f"{turned['FLIPPED_COUNT']} of 2 lines turned round, 4 guidelines pass",
    )
    stakes = results["stakes"]
    # The deepest zone that stakes within 15 ft of the centreline stand in.
    deepest = max(dug.depths[zone] for zone in ("lane", "bus bay", "curb", "planting strip"))
    ledger.check("stakes: largest cut, ft", stakes["CUT_MAX"], deepest, 1e-6)
    ledger.row(
        "stakes.gpkg, .csv, .html",
        "stakes on the lane's centreline and 15 ft to both sides of it",
        f"{stakes['STAKE_COUNT']} points, largest cut {stakes['CUT_MAX']:.3f} ft",
    )
    passes = results["passes"]
    # Zones as drawn: the crossing lies on the walk, and counts twice.
    stated = sum(shape.area for shape in dug.shapes.values()) + dug.shapes["crossing"].area
    ledger.check("passes: area of the zones, sq ft", passes["AREA"], stated, 1e-3 * stated)
    both = passes["COVERED"] + passes["LEFT_OVER_AREA"]
    ledger.check("passes: covered and left over, sq ft", both, passes["AREA"], 1e-6 * both)
    ledger.row(
        "passes.gpkg, .html",
        "passes 6 ft wide over every zone",
        f"{passes['PASS_COUNT']} passes, {100 * passes['COVERED'] / passes['AREA']:.1f} % covered",
    )


def _review(ledger, dug, results):
    """Prove that the depth of the schedule is there, and how much soil goes, by a grid of feet."""
    depths, volumes = results["depths"], results["volumes"]
    zones = len(dug.site.zones)
    ledger.check("depths: zones that pass", depths["PASS_COUNT"], zones, 0)
    ledger.row(
        "depths_checked.gpkg, .html, ...",
        "the depth of the schedule is there, zone by zone",
        f"{depths['PASS_COUNT']} of {zones} zones pass",
    )
    low, high = dug.site.vertices[:, :2].min(axis=0), dug.site.vertices[:, :2].max(axis=0)
    x, y = (np.arange(np.floor(a), np.ceil(b)) + 0.5 for a, b in zip(low, high, strict=True))
    places = np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2)
    heights, depth, _ = dug.heights(places)
    stated = np.nansum(np.where(np.isnan(depth), 0.0, dug.site.heights(places) - heights))
    ledger.check("volumes: cut, cu ft", volumes["CUT"], stated, 0.003 * stated)
    ledger.check("volumes: fill, cu ft", volumes["FILL"], 0, 1)
    ledger.row(
        "cut_fill.gpkg, volumes.html, ...",
        "cut from the design to depth.ply, by zone",
        f"{volumes['CUT_YD3']:,.1f} cu yd, {volumes['CUT_M3']:,.1f} cu m",
    )


def _breaks(ledger, site, out):
    """Compare the length of the breaks of each kind with the stated lines."""
    stated = dict.fromkeys(KINDS.values(), 0.0)
    for line in site.lines:
        if line.name in KINDS:
            ring = [*line.points, line.points[0]] if line.closed else line.points
            stated[KINDS[line.name]] += shapely.LineString(np.array(ring)[:, :2]).length
    found = dict.fromkeys(stated, 0.0)
    lines = _lines(out / "breaks.gpkg")
    for item, _ in lines:
        found[item["kind"]] += item["length"]
    for kind, length in stated.items():
        ledger.check(f"breaks: length of {kind}, ft", found[kind], length, 1e-3)
    ledger.row(
        "breaks.gpkg",
        "slope breaks of 3 % and more",
        f"{len(lines)} lines: "
        + ", ".join(f"{kind} {length:,.1f} ft" for kind, length in found.items()),
    )


def tell(results, out, data):
    """Return the table as text, and the figures that are not the stated ones."""
    site, ledger = build(), Ledger()
    dug = Dug(site)
    design = results["design"]
    area = shapely.Polygon(site.outline[:, :2]).area
    ledger.check("design: faces", design["FACE_COUNT"], len(site.faces), 0)
    ledger.check("design: plan area, sq ft", design["PLAN_AREA"], area, 1e-3)
    ledger.check("alignment: length, ft", design["ALIGNMENT_LENGTH"], f.LENGTH, 1e-4)
    ledger.row(
        "design.ply, alignment.gpkg, ...",
        "design, read from LandXML",
        f"{design['FACE_COUNT']:,} faces, {design['PLAN_AREA']:,.2f} sq ft",
        f"alignment {design['ALIGNMENT_LENGTH']:.2f} ft",
    )
    zones = _depth_tin(ledger, dug, results["depth_tin"], out)
    _depth_raster(ledger, dug, out, data)
    _agreement(ledger, out)
    _courses(ledger, dug, results["courses"], results["depth_tin"], out)
    lines = {(line.name, line.side): line.points for line in site.lines}
    for name, keys, offset, side in (
        ("guidelines_strip", (("strip break", "left"), ("walk front", "right")), 1.5, "toward"),
        ("guidelines_curb", (("back of curb", "left"), ("back of curb", "right")), 0.75, "away"),
    ):
        _guidelines(ledger, name, results[name], [lines[key] for key in keys], offset, side, out)
    _field(ledger, dug, results)
    _review(ledger, dug, results)
    _breaks(ledger, site, out)
    _ground(ledger, dug, results, out, data)
    toes = _lines(out / "model_toe_guidelines.gpkg")
    ledger.row(
        "model_*.ply, .gpkg",
        "depth surface and guidelines by models",
        f"guidelines 2 ft uphill of {len(toes)} toes",
    )
    ledger.row("pellworth_overview.png", "map of all this")
    return _text(ledger, zones, out), ledger.off


def _text(ledger, zones, out):
    shown = out.relative_to(out.parent.parent)
    width = max(len(file) for file, _, _ in ledger.rows)
    lines = ["", f"Pellworth drop-off loop: made in {shown}/ (US survey feet)", ""]
    for file, what, figures in ledger.rows:
        lines.append(f"   {file:<{width}}   {what}")
        lines += [f"   {'':<{width}}     {figure}" for figure in figures]
    lines += [
        "",
        f"   {'zone':<16}{'plan area':>15}   {'depth below finished grade':<28}carried on",
    ]
    for name, area, depth in zones:
        said = describe_length(depth, US_SURVEY_FOOT)
        past = f.WIDEN.get(name, "")
        lines.append(f"   {name:<16}{area:>9,.1f} sq ft   {said:<28}{past}".rstrip())
    lines += [
        "",
        "   Before machines are steered by these: locate buried utilities, protect every",
        "   excavation, check height and side on a known point. Local codes and licensed",
        "   practice decide.",
        "",
    ]
    return "\n".join(lines)
