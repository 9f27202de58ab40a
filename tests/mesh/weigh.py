"""Weighs every model below a folder with trimesh, a reader not ours, and holds what the checks say to it.

    python weigh.py FOLDER

The folder holds what `models.mjs` wrote: the piece as a mesh, in metres with the y axis up (glTF 2.0), and
the mass and centre of gravity that the page of numbers prints, with the sheets' densities from the scenario.
What is cut weighs by its mesh and its sheet's density, what is bought by the mass on its node.
"""

import json
import re
import struct
import sys
from fractions import Fraction
from pathlib import Path

import numpy
import trimesh

INCH_MM = 25.4


def nodes(path):
    """The nodes that are parts, as the file's own JSON has them (glTF 2.0, 4.4.3): trimesh keeps no extras."""
    data = path.read_bytes()
    length, kind = struct.unpack_from("<I4s", data, 12)
    assert kind == b"JSON", path
    held = json.loads(data[20 : 20 + length])["nodes"]
    return {node["name"]: node["extras"] for node in held if "mesh" in node}


def millimetres(text):
    """A printed length and how far it may be off, by its last figure."""
    if text.endswith(" mm"):
        return float(text[:-3]), 0.5
    whole, fraction = re.fullmatch(r"(\d+)?(?: ?(\d+/\d+))? in", text).groups()
    part = Fraction(fraction) if fraction else Fraction(0)
    return float((int(whole or 0) + part) * Fraction("25.4")), INCH_MM / 32


def weigh(path):
    scene = trimesh.load(path, force="scene")
    said = json.loads(path.with_suffix(".json").read_text())
    extras = nodes(path)
    names = list(scene.graph.nodes_geometry)
    assert sorted(names) == sorted(extras), path
    grams, moments, sawn = 0.0, numpy.zeros(3), 0
    low, high = numpy.full(3, numpy.inf), numpy.full(3, -numpy.inf)
    for name in names:
        transform, geometry = scene.graph[name]
        mesh = scene.geometry[geometry].copy()
        mesh.apply_transform(transform)
        low, high = numpy.minimum(low, mesh.bounds[0]), numpy.maximum(high, mesh.bounds[1])
        solid = trimesh.triangles.mass_properties(mesh.triangles, skip_inertia=True)
        density = said["densities"].get(extras[name]["material"])
        # The mesh is in metres, a density in kilograms to the cubic metre.
        part = solid.volume * density * 1000 if density else extras[name]["mass_g"]
        assert abs(part - extras[name]["mass_g"]) < 1.5, f"{path.name}, {name}: {part} g"
        sawn += density is not None
        grams += part
        moments += part * numpy.array(solid.center_mass)
    centre = moments / grams
    assert sawn * 2 > len(names) or not said["densities"], f"{path.name}: {sawn} of {len(names)} parts have a sheet"
    # From the outermost faces at the left and the front, and from the floor; the front looks along +z.
    from_there = [centre[0] - low[0], high[2] - centre[2], centre[1] - low[1]]
    return grams, [metres * 1000 for metres in from_there], said


def main(folder):
    models = sorted(Path(folder).glob("*.glb"))
    assert len(models) > 10, f"{len(models)} models"
    for path in models:
        grams, centre, said = weigh(path)
        kilograms = float(re.search(r"([\d.]+) kg", said["mass"])[1])
        assert abs(grams / 1000 - kilograms) <= 0.06, f"{path.name}: {grams} g, said {said['mass']}"
        for found, text in zip(centre, said["centre"].split(", "), strict=True):
            wanted, off = millimetres(text)
            assert abs(found - wanted) <= off + 0.3, f"{path.name}: {centre}, said {said['centre']}"
    print(f"{len(models)} models weigh and balance as said")


main(sys.argv[1])
