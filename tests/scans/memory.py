"""Prepare scans one after another and say what memory that took; run as a program of its own.

Arguments: a folder for the tiles, then the scans. Prints, as JSON, the peak of the whole
process in megabytes, that of the largest process that it started, and what it held after each
scan, with the libraries of the window and of the sheets loaded.
"""

import json
import resource
import sys
from pathlib import Path

# what the program has loaded while the window is open and a sheet is printed
import ezdxf
import PySide6.QtWidgets
import reportlab.pdfgen.canvas

from plan_editor.geometry.mappings import Straight
from plan_editor.scans.resampling import extent_of, north_up
from plan_editor.scans.tiles import make_tiles, open_tiles
from plan_editor.survey.grids import crs

LOADED = (ezdxf, PySide6.QtWidgets, reportlab.pdfgen.canvas, crs)


def megabytes(name: str) -> float:
    """Return a line of Linux's account of this process: VmRSS is now, VmHWM the peak."""
    lines = Path("/proc/self/status").read_text().splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith(f"{name}:")) / 1000


def main(shelf: Path, scans: list[Path]) -> None:
    """Prepare each scan, lay it north up, and look at it as the window does."""
    held, shown = [], []
    for scan in scans:
        folder = make_tiles(scan.read_bytes(), shelf)
        assert folder is not None
        # 1:200 at 300 dots per inch, turned by 2 degrees as a scan on the glass is
        fit = Straight((0.01692, 0.00059, 10.0, 0.00059, -0.01692, 240.0))
        laid = north_up(open_tiles(folder), fit, shelf)
        assert laid is not None
        assert extent_of(open_tiles(folder), fit)[0] == laid.west
        pyramid = laid.pyramid
        whole = pyramid.levels[pyramid.level_for(8)].pixels.copy()
        close = pyramid.window(0, 4000, 6000, 5600, 6900).copy()
        shown.append((pyramid, whole, close))
        held.append(megabytes("VmRSS"))
    child = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1000
    peaks = {"peak": megabytes("VmHWM"), "child": child, "held": held}
    sys.stdout.write(json.dumps(peaks))


if __name__ == "__main__":
    main(Path(sys.argv[1]), [Path(name) for name in sys.argv[2:]])
