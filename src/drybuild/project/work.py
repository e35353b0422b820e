"""The work as its owner plans it: jobs, time, places, help, and what may be found on the way."""

from __future__ import annotations

from drybuild.project.condition import ZonesNamed
from drybuild.project.fields import choice, date, flag, reading, text, texts
from drybuild.project.groups import named, shares, three_point
from drybuild.project.sections import Section
from drybuild.project.weeks import dates, weekdays, weeks_off
from drybuild.units import MONEY

ENDS = ("one in ten", "limits")
STAGES = ("strips", "bares", "primes", "closes")
"""What lies hidden shows when the shell is stripped or bared; repairs fall behind priming."""


class Job(Section):
    """A piece of work."""

    hours = three_point("s", "Your own hours: low / likely / high")
    cost = three_point(MONEY, "Material and bills: low / likely / high")
    after = texts("Jobs that must be done before it")
    place = text("The place it takes up: bay, lift, bench, ...")
    helpers = reading("-", "People needed beside you for all of its hours", exact=True, most=20.0)
    trade = text("The trade: body, paint, engine, ...; jobs of one trade go well or badly together")
    needs = texts("Systems that must be decided before it begins")
    opens = ZonesNamed("Body zones that it cuts open; they are closed when it is done")
    fits = texts("Systems whose parts it fits; their orders are wanted when it begins")
    cure = three_point("s", "Wait after its last hour, in its place: paint, sealer")
    away = three_point("s", "Wait after its last hour, elsewhere: machine shop, trimmer, plater")
    hired = three_point("s", "Hours of hired labour")
    rate = reading("money/s", "What an hour of that labour costs")
    earliest = date("Not before this day")
    stage = choice(
        "What it does to the shell: strips it, bares its metal, primes it, closes it after repairs",
        *STAGES,
    )
    done = flag("It is done: its hours are over, what it cost is spent")
    caution = text("What can hurt here")
    note = text("Anything worth remembering")


class Result(Section):
    """One way that something turns out."""

    odds = reading("-", "How likely it is", exact=True, most=1.0)
    hours = three_point("s", "Your own hours that it takes")
    cost = three_point(MONEY, "Material and bills that it takes")
    lead_time = three_point("s", "Wait for material between the finding and the work")


class Find(Section):
    """Something that is only known once a job is done."""

    revealed_by = text("The job after which it is known")
    before = texts("Jobs that wait until it is put right; all that follow, when not given")
    results = named(Result, "How it can turn out, from the best to the worst; odds sum to 100 %")
    cause = text("What brings it together with other finds: rust, wear, an old crash")
    loading = reading("-", "How closely it goes with that cause, 0 to 1", exact=True, most=1.0)
    place = text("The place that putting it right takes up")
    trade = text("The trade")
    helpers = reading("-", "People needed beside you", exact=True, most=20.0)
    caution = text("What can hurt here")


class Work(Section):
    """When and how you work, and what is taken for granted about it."""

    start = date("The day on which the work begins; today when not given")
    today = date("The day from which orders can be placed; the start when not given")
    hours_a_week = reading("s", "Your own hours in a usual week", typical=True, exact=True)
    kept = three_point("-", "Share of those hours that is really worked: low / likely / high")
    weekdays = weekdays("Weights of the days that you work on: {saturday: 2, sunday: 1}")
    weeks_off = weeks_off("Spans without work, or with other hours")
    helper_hours = reading("s", "Hours that helpers have in a week", typical=True, exact=True)
    places = shares("How many of each place you have; one, when not given", total=None)
    ends = choice(
        "What the outer figures of an estimate mean: passed one time in ten, or never",
        *ENDS,
        usual="one in ten",
    )
    common_factor = reading(
        "-", "Correlation between estimates of all trades", typical=True, exact=True, most=1.0
    )
    trade_factor = reading(
        "-", "Further correlation within a trade", typical=True, exact=True, most=1.0
    )
    rate = reading("money/s", "What an hour of hired labour costs", typical=True)
    own_hour = reading("money/s", "What an hour of your own is worth to you", typical=True)
    ordered = dates("Systems whose picked parts are ordered already, and when")
    fit_after = texts("Jobs after which parts are fitted that no job names")
    finds = named(Find, "What may be found on the way, beside the body's zones")
