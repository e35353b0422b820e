"""All clearances of a scene at one pose."""

from __future__ import annotations

from drybuild.physics.solids.nearest import Clearance, Nearest
from drybuild.physics.solids.scene import Pose, Scene


def clearances(*, scene: Scene, pose: Pose) -> dict[str, Clearance]:
    """Return for each pair what is left where it comes nearest to its need, over all positions.

    Parameters
    ----------
    scene : Scene
        What is placed and what stands, with movements and needs; nominal readings count. [m]
    pose : Pose
        Where the moving solids are put. [m]

    Returns
    -------
    dict
        One `Clearance` a pair, by its name: signed gap, need, closest points, state. [m]

    Notes
    -----
    For several poses, or for only the least margin, make a `Nearest` once and ask it.

    References
    ----------
    .. [1] E. Gilbert, D. Johnson, S. Keerthi, "A fast procedure for computing the distance between
       complex objects in three-dimensional space", IEEE J. Robotics and Automation 4, 1988.

    """
    return {one.pair: one for one in Nearest(scene).clearances(pose)}
