"""An option: one candidate for a system. What every option can say, whatever the system."""

from __future__ import annotations

from drybuild.errors import DoesNotApply
from drybuild.project.fields import flag, reading, text, texts
from drybuild.project.groups import numbers, three_point, words_by_name
from drybuild.project.sections import Section
from drybuild.units import MONEY


class Option(Section):
    """One candidate for a system: a part, a kit, or the car left as it is."""

    as_is = flag("The car as it stands: nothing to buy, nothing to fit")
    mass = reading(
        "kg",
        "Mass of all that belongs to it; else usual for its kind, or like what it replaces",
        typical=True,
    )
    position = numbers(
        "m",
        "Centre of that mass: forward of the front wheels, to the left, over the sill seam",
        count=3,
        least=None,
    )
    price = reading(MONEY, "Price with what is needed to fit it")
    lead_time = reading("s", "From order to delivery")
    deposit = reading("-", "Share of the price paid on ordering", most=1.0)
    fitting = three_point("s", "Owner's hours to fit it: least / likely / most")
    current = reading("A", "Continuous current it draws at 13.5 V")
    least_wheel_diameter = reading("m", "Smallest nominal wheel diameter it needs", exact=True)
    alters = texts("Areas of the car that it cuts or changes: bonnet, tunnel, bulkhead, ...")
    needs = words_by_name("Options of other systems that it needs: {system: [option, ...]}")
    excludes = words_by_name("Options of other systems that it rules out")
    joins = words_by_name("What it bolts to, by kind of joint: {bellhousing: pattern B}")
    note = text("Anything worth remembering")
    shape = text("File with its outline, inside the build folder")


def ask_where_changed(*options: Option, given: bool, why: str) -> None:
    """Let a question pass where one of the options is new, or its answer is given anyway.

    Raises
    ------
    DoesNotApply
        All of them are the car as it stands, so that nobody asks.

    """
    if not given and all(option.as_is for option in options):
        raise DoesNotApply(options[0].path, why)
