"""The engine in its bay as a file that any 3-D viewer opens: binary glTF 2.0, metres, y up."""

from __future__ import annotations

import json
import struct
from collections.abc import Sequence
from typing import Any

import numpy as np

from drybuild.physics.solids.shapes import Array
from drybuild.present.packaging_meshes import WALL, WHEEL, DrawnSolid

MAGIC, VERSION = 0x46546C67, 2
JSON_CHUNK, BIN_CHUNK = 0x4E4F534A, 0x004E4942
FLOAT, UNSIGNED_INT = 5126, 5125
ARRAY_BUFFER, ELEMENT_ARRAY_BUFFER = 34962, 34963
TRIANGLES = 4
"""Numbers of the standard: Khronos Group, glTF 2.0 specification, sections 3.6, 3.7, 4.4."""
LOOKS: dict[str, tuple[float, float, float, float]] = {
    "engine": (0.55, 0.66, 0.74, 1.0),
    "gearbox": (0.66, 0.55, 0.66, 1.0),
    "hot": (0.80, 0.42, 0.22, 1.0),
    "rotating": (0.86, 0.72, 0.30, 1.0),
    "shaft": (0.60, 0.60, 0.66, 1.0),
    "steering": (0.50, 0.35, 0.55, 1.0),
    "suspension": (0.42, 0.48, 0.42, 1.0),
    "brake line": (0.45, 0.62, 0.50, 1.0),
    "fuel line": (0.72, 0.58, 0.40, 1.0),
    "tank": (0.62, 0.52, 0.38, 1.0),
    "radiator": (0.38, 0.50, 0.56, 1.0),
    "bonnet": (0.70, 0.76, 0.78, 0.35),
    WALL: (0.78, 0.80, 0.80, 0.55),
    WHEEL: (0.25, 0.27, 0.28, 1.0),
}
"""Colour and opacity by what a part is."""
OTHER = (0.60, 0.62, 0.60, 1.0)
ENGINE, BAY, WHEELS = "engine and gearbox", "bay", "front wheels"
GROUPS = (ENGINE, BAY, WHEELS)


def model_bytes(solids: Sequence[DrawnSolid], name: str) -> bytes:
    """Return solids as a binary glTF file.

    Parameters
    ----------
    solids : sequence of DrawnSolid
        What is drawn, in body axes.
    name : str
        Name of the scene.

    Notes
    -----
    The standard's axes are right-handed with y up and z forward; a car's x forward, y left, z up
    become z, x, y. Each solid is a node with its name, below one of `GROUPS`.

    """
    kinds = sorted({one.kind for one in solids})
    binary = bytearray()
    views: list[dict[str, Any]] = []
    accessors: list[dict[str, Any]] = []
    meshes = [_mesh(one, kinds.index(one.kind), binary, views, accessors) for one in solids]
    document = {
        "asset": {"version": "2.0", "generator": "drybuild"},
        "scene": 0,
        "scenes": [{"name": name, "nodes": [0]}],
        **_nodes(solids, name),
        "materials": [_material(kind) for kind in kinds],
        "meshes": meshes,
        "accessors": accessors,
        "bufferViews": views,
        "buffers": [{"byteLength": len(binary)}],
    }
    empty = ("materials", "meshes", "accessors", "bufferViews", "buffers")
    told = {key: value for key, value in document.items() if binary or key not in empty}
    text = json.dumps(told, separators=(",", ":"), ensure_ascii=False).encode()
    chunks = _chunk(JSON_CHUNK, text, b" ") + (
        _chunk(BIN_CHUNK, bytes(binary), b"\0") if binary else b""
    )
    return struct.pack("<III", MAGIC, VERSION, 12 + len(chunks)) + chunks


def _nodes(solids: Sequence[DrawnSolid], name: str) -> dict[str, Any]:
    """Return the tree: the car, its groups, and each solid in its group."""
    group_of = [WHEELS if one.kind == WHEEL else ENGINE if one.moving else BAY for one in solids]
    groups = [one for one in GROUPS if one in group_of]
    first = 1 + len(groups)
    nodes: list[dict[str, Any]] = [{"name": name}]
    if groups:
        nodes[0]["children"] = list(range(1, first))
    for group in groups:
        children = [first + k for k, one in enumerate(group_of) if one == group]
        nodes.append({"name": group, "children": children})
    nodes += [
        {"name": one.name, "mesh": k, "extras": {"kind": one.kind}} for k, one in enumerate(solids)
    ]
    return {"nodes": nodes}


def _mesh(
    one: DrawnSolid,
    material: int,
    binary: bytearray,
    views: list[dict[str, Any]],
    accessors: list[dict[str, Any]],
) -> dict[str, Any]:
    points = np.ascontiguousarray(in_gltf_axes(one.points), dtype="<f4")
    corners = np.ascontiguousarray(one.faces.ravel(), dtype="<u4")
    places = []
    for data, target, sort, shape in (
        (points, ARRAY_BUFFER, FLOAT, "VEC3"),
        (corners, ELEMENT_ARRAY_BUFFER, UNSIGNED_INT, "SCALAR"),
    ):
        views.append(
            {"buffer": 0, "byteOffset": len(binary), "byteLength": data.nbytes, "target": target}
        )
        binary += data.tobytes()
        accessor: dict[str, Any] = {
            "bufferView": len(views) - 1, "componentType": sort, "count": len(data), "type": shape,
        }  # fmt: skip
        if shape == "VEC3":
            accessor |= {"min": data.min(axis=0).tolist(), "max": data.max(axis=0).tolist()}
        accessors.append(accessor)
        places.append(len(accessors) - 1)
    return {
        "name": one.name,
        "primitives": [
            {
                "attributes": {"POSITION": places[0]},
                "indices": places[1],
                "material": material,
                "mode": TRIANGLES,
            }
        ],
    }


def in_gltf_axes(points: Array) -> Array:
    """Return points of body axes (x forward, y left, z up) as x left, y up, z forward."""
    return points[:, [1, 2, 0]]


def _material(kind: str) -> dict[str, Any]:
    colour = LOOKS.get(kind, OTHER)
    found: dict[str, Any] = {
        "name": kind,
        "pbrMetallicRoughness": {
            "baseColorFactor": list(colour), "metallicFactor": 0.1, "roughnessFactor": 0.8,
        },
        "doubleSided": True,
    }  # fmt: skip
    if colour[3] < 1.0:
        found["alphaMode"] = "BLEND"
    return found


def _chunk(sort: int, data: bytes, filler: bytes) -> bytes:
    """Return a chunk, filled up to a multiple of four bytes as the standard asks."""
    data += filler * (-len(data) % 4)
    return struct.pack("<II", len(data), sort) + data
