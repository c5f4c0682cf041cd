"""How fast a large LandXML file is read, and in how much memory.

    .venv/bin/python -m tests.benchmarks.bench_landxml [megabytes] [--mixed]

Writes a surface of that size (100 by default), then reads it four ways in this process: ours in
blocks, ours element by element, and the two usual streaming readers with the least work that
still gives the same arrays. ``--mixed`` marks every ninth face invisible and gives neighbours.
Prints time, ratio to ours, and the peak of memory over the size of the file, each in its own
child process.
"""

import multiprocessing
import resource
import sys
import tempfile
import time
import xml.etree.ElementTree as ET
from pathlib import Path

import numpy as np

BYTES_PER_POINT = {False: 109.0, True: 155.0}
"""One point and two faces, without and with marks and neighbours."""


def write(path: Path, megabytes: float, mixed: bool) -> None:
    side = int((megabytes * 1e6 / BYTES_PER_POINT[mixed]) ** 0.5)
    rng = np.random.default_rng(7)
    with path.open("w") as file:
        file.write('<?xml version="1.0" encoding="UTF-8"?>\n')
        file.write('<LandXML xmlns="http://www.landxml.org/schema/LandXML-1.2" version="1.2">\n')
        file.write('<Units><Metric linearUnit="meter"/></Units>\n<Surfaces><Surface name="big">\n')
        file.write('<Definition surfType="TIN"><Pnts>\n')
        for row in range(side):
            z = rng.normal(100, 0.3, side)
            file.writelines(
                f'<P id="{row * side + k + 1}">{5000000 + row * 1.5:.4f} {400000 + k * 1.5:.4f} {z[k]:.4f}</P>\n'
                for k in range(side)
            )
        file.write("</Pnts><Faces>\n")
        for row in range(side - 1):
            a = row * side + np.arange(1, side)
            for k in a.tolist():
                mark = ' i="1"' if mixed and k % 9 == 0 else ""
                near = f' n="{k} {k + 1} {k + 2}"' if mixed else ""
                file.write(
                    f"<F{mark}{near}>{k} {k + 1} {k + side}</F>\n<F{near}>{k + 1} {k + side + 1} {k + side}</F>\n"
                )
        file.write("</Faces></Definition></Surface></Surfaces></LandXML>\n")


def ours(path: Path, in_blocks: bool = True) -> tuple[int, int]:
    from plugin.core.exchange.landxml import read_landxml

    surface = read_landxml(path, in_blocks=in_blocks).surfaces[0]
    return surface.point_count, len(surface.tin.faces) + surface.hidden_count


def element_by_element(path: Path) -> tuple[int, int]:
    return ours(path, in_blocks=False)


def collect(elements) -> tuple[int, int]:
    points, faces = [], []
    for _, element in elements:
        if element.tag.endswith("}P"):
            points.append([float(word) for word in element.text.split()])
        elif element.tag.endswith("}F"):
            faces.append([int(word) for word in element.text.split()])
        element.clear()
    return len(np.array(points)), len(np.array(faces))


def standard_library(path: Path) -> tuple[int, int]:
    return collect(ET.iterparse(path))


def lxml(path: Path) -> tuple[int, int]:
    from lxml import etree

    space = "{http://www.landxml.org/schema/LandXML-1.2}"
    return collect(etree.iterparse(str(path), tag=(space + "P", space + "F"), huge_tree=True))


def measure(read, path: Path, answers) -> None:
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    start = time.perf_counter()
    counts = read(path)
    seconds = time.perf_counter() - start
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before
    answers.put((seconds, peak * 1024, counts))


def main(arguments: list[str]) -> None:
    mixed = "--mixed" in arguments
    sizes = [float(word) for word in arguments if word.replace(".", "").isdigit()]
    context = multiprocessing.get_context("spawn")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "big.xml"
        write(path, sizes[0] if sizes else 100.0, mixed)
        size = path.stat().st_size
        print(f"{size / 1e6:.0f} MB, mixed={mixed}")
        base = 0.0
        for read in (ours, element_by_element, standard_library, lxml):
            answers = context.Queue()
            child = context.Process(target=measure, args=(read, path, answers))
            child.start()
            seconds, peak, counts = answers.get()
            child.join()
            base = base or seconds
            print(
                f"{read.__name__:20} {seconds:7.2f} s  x {seconds / base:5.2f}"
                f"  peak {peak / size:5.2f} x file  {counts}"
            )


if __name__ == "__main__":
    main(sys.argv[1:])
