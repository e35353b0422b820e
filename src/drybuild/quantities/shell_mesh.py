"""The frame as plain data: nodes, members and panels with their walls and strain, for a view."""

from __future__ import annotations

from typing import Any

from drybuild.quantities.shell_model import Addition, ShellModel

Json = dict[str, Any]  # JSON is free-form


def frame_mesh(model: ShellModel, work: tuple[Addition, ...] = ()) -> Json:
    """Return the frame after some work as data that any viewer can draw.

    Parameters
    ----------
    model : ShellModel
        The body as a frame: the value of the step ``shell_model``.
    work : tuple
        What is done to it: the values of the step ``frame_work``.

    Returns
    -------
    dict
        ``nodes``: place ``[x, y, z]`` by name, in m, x forward of the front wheels, y to the left,
        z over the sill seam. ``members``: name, start, end, section, shape, width, height, wall
        and length in m, mass in kg, share of the strain energy in torsion with its joints, and
        whether the work adds it. ``panels``: name, four corners, metal, working thickness in m,
        share. ``left`` and ``right`` stand behind the names of both sides.

    """
    built, solved = model.built(work), model.sampled("torsion", work)
    factors, elements = model.nominal(work), built.elements
    before = {bar.name for bar in model.bars}
    shares = (solved.member_share + solved.joint_share)[:, 0]
    members = []
    for number, bar in enumerate(built.bars):
        size = model.sizes[bar.section]
        members.append(
            {
                "name": bar.name,
                "start": bar.start,
                "end": bar.end,
                "section": bar.section,
                "shape": size.shape,
                "width": size.width,
                "height": size.height,
                "wall": size.gauge * float(factors.member[number]),
                "length": float(elements.length[number]),
                "mass": float(elements.member_mass[number] * factors.member[number]),
                "share": float(shares[number]),
                "added": bar.name not in before,
            }
        )
    panels = [
        {
            "name": sheet.name,
            "corners": list(sheet.corners),
            "metal": sheet.metal,
            "thickness": float(built.frame.panels.thickness[number] * factors.panel[number]),
            "share": float(solved.panel_share[number, 0]),
        }
        for number, sheet in enumerate(built.sheets)
    ]
    return {
        "template": model.template,
        "nodes": {
            name: [float(one) for one in place]
            for name, place in zip(built.frame.nodes, built.frame.places, strict=True)
        },
        "members": members,
        "panels": panels,
    }
