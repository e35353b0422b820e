"""Solids in space: convex pieces and meshes, where they are put, and how far apart they are.

Belongs here: shapes (`shapes`, `engines`, `loft`), what moves and is put where (`scene`), distances
(`clearance`, with their spread in `sampled`, and for a search in `nearest`), meshes (`mesh_check`,
`registration`). Does not: files, readings, wishes of the trade. The one library that finds
distances is python-fcl; `collider.py` alone calls it, and imports it when first asked.

Body axes as ISO 8855: x forward from the front wheel centres, y left, z up from the sill seam. An
engine's own axes: origin where the crankshaft's line meets the rear face of the block, x forward
along the crankshaft, y left, z up; gearbox pieces therefore have x below zero.

To find clearances::

    scene = Scene(moving=(engine,), fixed=(left_tower, bonnet), movements={"rock": rock})
    found = clearances(scene=scene, pose=pose)         # nominal: one `Clearance` a pair
    spread = sampled_gaps(scene=scene, pose=pose, found=found)  # gaps over the samples

To search for a place: ``near = Nearest.of(scene)`` once, then ``near.margin(pose)`` for each place:
the least gap over its need, with the contact that has it (its normal is the gradient).

To draw: `triangles_of(solid, turned=..., shifted=...)`, or all of them from a session by
`drybuild.quantities.packaging_scene.meshes_in_body_axes`.
"""
