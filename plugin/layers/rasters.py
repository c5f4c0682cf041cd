"""Rasters read and written window by window through GDAL, whatever their size."""

import contextlib
import os
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from types import TracebackType
from typing import Any, Self

import numpy as np
from osgeo import gdal
from qgis.core import QgsCoordinateReferenceSystem, QgsProviderRegistry, QgsRasterLayer

from ..core.errors import SurfaceError
from ..core.grid import Grid
from ..core.text import translate

gdal.UseExceptions()

CACHE_BYTES = 64 * 1024 * 1024
"""GDAL's block cache during a run: strips of tiles of a wide raster, not a share of memory."""


@contextlib.contextmanager
def small_cache(size: int = CACHE_BYTES) -> Iterator[None]:
    """Keep GDAL's block cache small while in the ``with`` block."""
    before = gdal.GetCacheMax()
    gdal.SetCacheMax(size)
    try:
        yield
    finally:
        gdal.SetCacheMax(before)


@dataclass(frozen=True)
class RasterSource:
    """One band of a raster; holds no open file, so that it can go to another thread.

    Parameters
    ----------
    uri
        What GDAL opens.
    band
        Number of the band, from 1.
    width, height
        Columns and rows.
    transform
        GDAL's six numbers: x = t0 + t1 col + t2 row, y = t3 + t4 col + t5 row, of a pixel's
        upper left corner.
    nodata
        Value of pixels without data, or None.
    dtype
        Type of the pixels on disk.
    block
        Width and height of the tiles on disk.
    crs_wkt
        CRS as text, empty when there is none.
    """

    uri: str
    band: int
    width: int
    height: int
    transform: tuple[float, ...]
    nodata: float | None
    dtype: np.dtype
    block: tuple[int, int]
    crs_wkt: str = ""
    open_options: tuple[str, ...] = ()
    _open: dict[str, Any] = field(default_factory=dict, repr=False, compare=False)

    @classmethod
    def from_layer(cls, layer: QgsRasterLayer, band: int = 1) -> "RasterSource":
        """Describe the band of a raster layer that GDAL reads.

        Raises
        ------
        SurfaceError
            The layer comes from a service, or has no such band.
        """
        if layer.providerType() != "gdal":
            raise SurfaceError(
                translate(
                    "Layers",
                    "The raster “{name}” comes from a service ({kind}): save it as a GeoTIFF first.",
                ).format(name=layer.name(), kind=layer.providerType())
            )
        uri = layer.dataProvider().dataSourceUri()
        decoded = QgsProviderRegistry.instance().decodeUri("gdal", uri)
        options = tuple(decoded.get("openOptions") or ())
        path = uri.split("|option:", maxsplit=1)[0]
        return cls.from_path(path, band, options, layer.name())

    @classmethod
    def from_path(
        cls, uri: str, band: int = 1, open_options: tuple[str, ...] = (), name: str = ""
    ) -> "RasterSource":
        """Describe the band of a file."""
        called = name or Path(uri).name
        try:
            dataset = gdal.OpenEx(uri, gdal.OF_RASTER, open_options=list(open_options))
        except RuntimeError as error:
            raise SurfaceError(
                translate("Layers", "The raster “{name}” cannot be opened: {why}.").format(
                    name=called, why=str(error).rstrip(".")
                )
            ) from error
        if not 1 <= band <= dataset.RasterCount:
            raise SurfaceError(
                translate(
                    "Layers", "The raster “{name}” has no band {band}: it has {count}."
                ).format(name=called, band=band, count=dataset.RasterCount)
            )
        raster = dataset.GetRasterBand(band)
        kind = gdal.GetDataTypeName(raster.DataType).lower()
        if kind.startswith("c"):
            raise SurfaceError(
                translate(
                    "Layers", "The raster “{name}” holds complex numbers, not heights."
                ).format(name=called)
            )
        spatial = dataset.GetSpatialRef()
        return cls(
            uri,
            band,
            dataset.RasterXSize,
            dataset.RasterYSize,
            tuple(dataset.GetGeoTransform()),
            raster.GetNoDataValue(),
            np.dtype("uint8" if kind == "byte" else kind),
            tuple(raster.GetBlockSize()),
            "" if spatial is None else spatial.ExportToWkt(["FORMAT=WKT2_2019"]),
            open_options,
        )

    @property
    def crs(self) -> QgsCoordinateReferenceSystem:
        """CRS of the file."""
        return QgsCoordinateReferenceSystem.fromWkt(self.crs_wkt)

    @property
    def pixel(self) -> tuple[float, float]:
        """Width and height of a pixel, positive, of a raster that is not rotated."""
        return abs(self.transform[1]), abs(self.transform[5])

    @property
    def grid(self) -> Grid:
        """Place of a raster that is not rotated."""
        left, width, _, top, _, height = self.transform
        return Grid(left, top, width, height, self.width, self.height)

    @property
    def is_rotated(self) -> bool:
        """Whether rows do not run along x."""
        return self.transform[2] != 0.0 or self.transform[4] != 0.0

    def opened(self) -> Self:
        """Open the file for this thread; also as a ``with`` block."""
        self._open["dataset"] = gdal.OpenEx(
            self.uri, gdal.OF_RASTER, open_options=list(self.open_options)
        )
        return self

    def close(self) -> None:
        """Close the file."""
        self._open.clear()

    __enter__ = opened

    def __exit__(self, *error: object) -> None:
        self.close()

    def read(
        self, column: int, row: int, width: int, height: int, into: np.ndarray | None = None
    ) -> np.ndarray:
        """Return a window (height, width) in the raster's own type; it must lie inside.

        ``into`` is an array of that shape and type to read into, instead of a new one.
        """
        if "dataset" not in self._open:
            self.opened()
        band = self._open["dataset"].GetRasterBand(self.band)
        return band.ReadAsArray(column, row, width, height, buf_obj=into)

    def missing(self, window: np.ndarray) -> np.ndarray:
        """Return where a window has no data: the nodata value, and NaN."""
        result = np.isnan(window) if window.dtype.kind == "f" else np.zeros(window.shape, bool)
        if self.nodata is not None and not np.isnan(self.nodata):
            result |= window == np.asarray(self.nodata).astype(window.dtype)
        return result


class RasterTarget:
    """A GeoTIFF in the making: tiled and compressed, under its name only when complete.

    Parameters
    ----------
    path
        Where the finished file goes.
    like
        Raster whose grid and CRS it has.
    dtype, nodata
        Its type and nodata value; those of ``like`` when None.
    options
        Creation options of GDAL's GTiff driver, instead of the usual ones.
    """

    OPTIONS = (
        "TILED=YES",
        "BLOCKXSIZE=256",
        "BLOCKYSIZE=256",
        "COMPRESS=DEFLATE",
        "ZLEVEL=6",
        "BIGTIFF=IF_SAFER",
        "NUM_THREADS=ALL_CPUS",
    )

    def __init__(
        self,
        path: str | os.PathLike[str],
        like: RasterSource,
        dtype: np.dtype | None = None,
        nodata: float | None = None,
        options: tuple[str, ...] | None = None,
    ) -> None:
        self.path = Path(path)
        self.like = like
        self.dtype = np.dtype(dtype or like.dtype)
        self.nodata = like.nodata if nodata is None else nodata
        self.options = options or (*self.OPTIONS, _predictor(self.dtype))
        self._words: tuple[str, str, dict[str, str]] | None = None
        self._dataset: gdal.Dataset | None = None
        self._folder: Path | None = None

    def __enter__(self) -> Self:
        try:
            # Beside the result, so that the last move is a rename.
            self._folder = Path(tempfile.mkdtemp(prefix=".undercourse-", dir=self.path.parent))
            self._dataset = gdal.GetDriverByName("GTiff").Create(
                str(self._partial),
                self.like.width,
                self.like.height,
                1,
                gdal.GetDataTypeByName(_gdal_name(self.dtype)),
                list(self.options),
            )
        except (OSError, RuntimeError) as error:
            self._discard()
            raise SurfaceError(
                translate("Layers", "“{path}” cannot be written: {why}.").format(
                    path=self.path, why=str(error).rstrip(".")
                )
            ) from error
        self._dataset.SetGeoTransform(self.like.transform)
        if self.like.crs_wkt:
            self._dataset.SetProjection(self.like.crs_wkt)
        if self.nodata is not None:
            self._dataset.GetRasterBand(1).SetNoDataValue(self.nodata)
        if self._words is not None:
            text, unit, notes = self._words
            self._dataset.GetRasterBand(1).SetDescription(text)
            self._dataset.GetRasterBand(1).SetUnitType(unit)
            self._dataset.SetMetadata(notes)
        return self

    @property
    def _partial(self) -> Path:
        return self._folder / self.path.name

    def describe(self, text: str, unit: str, notes: dict[str, str]) -> None:
        """Give the band a text and the unit of its values, and the file notes; before opening."""
        self._words = text, unit, notes

    def write(self, column: int, row: int, window: np.ndarray) -> None:
        """Write a window whose upper left pixel is given."""
        self._dataset.GetRasterBand(1).WriteArray(window, column, row)

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        try:
            if kind is None:
                self._dataset.FlushCache()
                self._dataset = None
                os.replace(self._partial, self.path)
        finally:
            self._dataset = None
            self._discard()

    def _discard(self) -> None:
        if self._folder is not None:
            for left in self._folder.iterdir():
                left.unlink()
            self._folder.rmdir()
            self._folder = None


@contextlib.contextmanager
def writing(target: RasterTarget) -> Iterator[None]:
    """Hold a raster open for writing, with little of GDAL's memory.

    Raises
    ------
    SurfaceError
        The result cannot be written; GDAL's errors become one sentence.
    """
    with small_cache(), _plain_errors(target.path), target:
        yield
    for suffix in (".aux.xml", ".ovr"):  # of a file of that name that is no more
        Path(f"{target.path}{suffix}").unlink(missing_ok=True)


@contextlib.contextmanager
def _plain_errors(path: Path) -> Iterator[None]:
    """Turn GDAL's errors into one sentence."""
    try:
        yield
    except RuntimeError as error:
        raise SurfaceError(
            translate("Layers", "“{path}” could not be made: {why}.").format(
                path=path, why=str(error).rstrip(".")
            )
        ) from error


def windows(height: int, rows: int) -> Iterator[tuple[int, int]]:
    """Yield (first row, number of rows) of strips from the top."""
    for row in range(0, height, rows):
        yield row, min(rows, height - row)


def _predictor(dtype: np.dtype) -> str:
    return "PREDICTOR=3" if dtype.kind == "f" else "PREDICTOR=2"


def _gdal_name(dtype: np.dtype) -> str:
    return "Byte" if dtype == np.uint8 else dtype.name.capitalize().replace("Uint", "UInt")
