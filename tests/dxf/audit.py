"""Reads every DXF below a folder with ezdxf, a reader not ours, and holds it to what a machine needs.

    python audit.py FOLDER

Each file must load without the reader's repair, pass its audit, be of release 12, and have its lines on the layers
that say the operation. A sheet's parts lie on the sheet, apart from each other by at least the kerf of the plan.
"""

import json
import sys
from pathlib import Path

import ezdxf

OPERATIONS = {"OUTLINE", "GROOVE", "HOLE", "LABEL", "GROOVE-BACK", "HOLE-BACK", "SHEET"}


def bounds(line):
    points = [vertex.dxf.location for vertex in line.vertices]
    return (min(p.x for p in points), min(p.y for p in points), max(p.x for p in points), max(p.y for p in points))


def inside(a, b):
    return a[0] >= b[0] - 1e-6 and a[1] >= b[1] - 1e-6 and a[2] <= b[2] + 1e-6 and a[3] <= b[3] + 1e-6


def apart(a, b):
    return max(b[0] - a[2], a[0] - b[2], b[1] - a[3], a[1] - b[3])


def faults(path, kerf):
    drawing = ezdxf.readfile(path)
    auditor = drawing.audit()
    found = [str(error) for error in auditor.errors + auditor.fixes]
    if drawing.dxfversion != "AC1009":
        found.append(f"release {drawing.dxfversion}")
    space = drawing.modelspace()
    found += [f"layer {e.dxf.layer}" for e in space if e.dxf.layer not in OPERATIONS]
    for line in space.query("POLYLINE"):
        if not line.is_closed or len(line.vertices) < 4:
            found.append(f"an open line on {line.dxf.layer}")
    outlines = [bounds(line) for line in space.query('POLYLINE[layer=="OUTLINE"]')]
    sheets = [bounds(line) for line in space.query('POLYLINE[layer=="SHEET"]')]
    if not outlines:
        found.append("no outline")
    # What is cut out inside a part lies inside its outline.
    outer = [a for a in outlines if not any(a is not b and inside(a, b) for b in outlines)]
    for line in space.query("POLYLINE"):
        if line.dxf.layer.startswith("GROOVE"):
            height = min(vertex.dxf.location.z for vertex in line.vertices)
            if height >= 0:
                found.append("a groove without depth")
            if not any(inside(bounds(line), o) for o in outer):
                found.append("a groove outside every part")
    for hole in space.query("CIRCLE"):
        x, y = hole.dxf.center.x, hole.dxf.center.y
        if hole.dxf.radius <= 0 or not any(inside((x, y, x, y), o) for o in outer):
            found.append("a hole outside every part")
    for sheet in sheets:
        found += ["a part beside the sheet" for o in outer if not inside(o, sheet)]
        for n, a in enumerate(outer):
            found += ["two parts less than a kerf apart" for b in outer[n + 1 :] if apart(a, b) < kerf - 1e-3]
    return found


def main(folder):
    read = 0
    wrong = []
    for plan in sorted(Path(folder).rglob("plan.json")):
        cutting = json.loads(plan.read_text(encoding="utf-8"))["cutting"]
        files = sorted((plan.parent / "cutting").glob("*.dxf"))
        for path in files:
            read += 1
            wrong += [f"{path}: {fault}" for fault in faults(path, cutting["job"]["kerf"] / 1000)]
    print(f"{read} drawings read with ezdxf {ezdxf.__version__}")
    for line in wrong:
        print(line)
    return 1 if wrong or read == 0 else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
