"""Axles on links: live or de Dion, on three or four links, with a Panhard rod or Watt's linkage."""

from __future__ import annotations

from functools import partial

from drybuild.errors import require
from drybuild.physics.linkage.axle import LATERAL, axle, both_links, lateral_guide
from drybuild.physics.linkage.joints import Constraint, Link, Shared
from drybuild.physics.linkage.layout import Layout, Points, Setting, shaped
from drybuild.physics.linkage.mechanism import Mechanism


def _build(name: str, points: Points, setting: Setting) -> Mechanism:
    at = shaped(points=points)
    lower = both_links(name="lower link", start=at["lower_body"], end=at["lower_axle"])
    sideways, hinges = lateral_guide(points=at)
    upper: tuple[Constraint, ...]
    if "top_body" in at:
        upper = (Link(name="top link", start=at["top_body"], end=at["top_axle"]),)
    else:
        given = "upper_body" in at and "upper_axle" in at
        require(given, "points", "without", "", "given a top link, or a pair of upper links")
        pair = both_links(name="upper link", start=at["upper_body"], end=at["upper_axle"])
        # Beside a rod that holds the axle sideways, two upper links are one too many: they share.
        upper = (Shared(name="pair of upper links", parts=pair),) if sideways else pair
    require(
        bool(sideways) or "top_body" not in at,
        "points",
        "a top link",
        "",
        "given with a Panhard rod or Watt's linkage",
    )
    return axle(
        layout=name,
        wheel_centre=at["wheel_centre"],
        setting=setting,
        constraints=(*lower, *upper, *sideways),
        hinges=hinges,
        kingpin=None,
        steers="",
    )


LAYOUTS = tuple(
    Layout(
        name=name,
        points={
            "wheel_centre": "Centre of the wheel",
            "lower_body": "Lower link's end on the body",
            "lower_axle": "Lower link's end on the axle",
        },
        optional={
            "upper_body": "Upper link's end on the body, where there is one each side",
            "upper_axle": "Upper link's end on the axle",
            "top_body": "End of a single top link on the body",
            "top_axle": "Its end on the axle",
            **LATERAL,
        },
        build=partial(_build, name),
    )
    for name in ("live axle on links", "de Dion axle")
)
