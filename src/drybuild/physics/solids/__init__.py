"""Solids in space: convex pieces and meshes, where they are put, and how far apart they are.

Belongs here: shapes (`shapes`, `engines`, `loft`), what moves and is put where (`scene`, with the
axes), distances (`clearance`; `sampled` for their spread; `nearest` for a search), meshes. Does
not: files, readings, needs of the trade. `collider.py` alone calls the collision library.

Once: ``clearances(scene=scene, pose=pose)``. Over samples: ``sampled_gaps(scene=, pose=)``.
For a search: ``near = Nearest(scene)``, then ``near.margin(pose)`` for each place. To draw:
`triangles_of`; all solids of a session: `quantities.packaging_scene.meshes_in_body_axes`.
"""
