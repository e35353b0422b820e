"""Frames of beams and shear panels in space: stiffness, energy, modes, what each part is worth.

Belongs here: the frame as numbers (`assembly`), its elements (`elements`, `panels`), load cases and
their solution (`cases`, `solve`), many sampled frames at once (`sampled`, `reduced`), modes and
sensitivities. Does not: templates of cars, readings, materials by name.
To add an element: its stiffness in a module of its own, its entries in `assembly.Elements`.
"""
