"""The parts list: what to buy, its mass, price and lead time, and by when to order it."""

from __future__ import annotations

from drybuild.book.option_texts import given, is_new, lead_time, mass_of, money_of
from drybuild.book.pages import Block, Chapter, Figure, Sheet, Words
from drybuild.book.sheets import figures
from drybuild.planning.dates import OrderBy
from drybuild.present.path_words import system_words
from drybuild.present.plots import bars_plot
from drybuild.present.schedule_tables import money_text
from drybuild.project.option import Option
from drybuild.session import Session


def parts_chapter(session: Session) -> Chapter:
    """Return the shopping list in the order of its last days."""
    wanted = _wanted(session)
    blocks: list[Block] = []
    if wanted:
        blocks += [_sheet(session, wanted), _prices(session, wanted)]
        silent = [name for system, name, one in wanted if given(one, "price") is None]
        if silent:
            blocks.append(Words(text=f"No price is given yet for: {', '.join(silent)}."))
        blocks += figures(session, "What it comes to", ("parts_cost", "total_cost"))
    else:
        blocks.append(Words(text="Nothing is to be bought: every system stays as it is."))
    return Chapter(
        title="Parts list",
        intro="What is picked and not on the car yet, in the order in which it must be ordered. On "
        "its last day a part still comes in time in nine runs of ten.",
        blocks=tuple(blocks),
    )


def _wanted(session: Session) -> list[tuple[str, str, Option]]:
    build = session.build
    return [
        (system, name, build.options[system][name])
        for system, name in build.picks.items()
        if is_new(build.options[system][name])
    ]


def _sheet(session: Session, wanted: list[tuple[str, str, Option]]) -> Sheet:
    build, forecast = session.build, session.forecast
    due: dict[str, OrderBy] = {one.system: one for one in forecast.orders} if forecast else {}
    rows = []
    for system, name, option in wanted:
        order = due.get(system)
        day = str(forecast.day(order.safe_day)) if forecast and order else ""
        rows.append(
            (
                day,
                name,
                system_words(system),
                mass_of(option, build.units),
                money_of(option, build.currency),
                lead_time(option),
                "too late" if order and order.clash else "",
            )
        )
    rows.sort(key=lambda row: row[0] or "9999")
    total = sum(one.value for *_, option in wanted if (one := given(option, "price")))
    rows.append(("", "All parts", "", "", money_text(total, build.currency), "", ""))
    return Sheet(
        title="Parts to order",
        columns=("order by", "part", "system", "mass", "price", "lead time", ""),
        rows=tuple(rows),
        numeric=(3, 4, 5),
        widths=(1.15, 2.3, 1.6, 0.9, 1.15, 0.95, 0.7),
        total=True,
    )


def _prices(session: Session, wanted: list[tuple[str, str, Option]]) -> Figure:
    currency = session.build.currency
    priced = [
        (f"{system_words(system)}: {name}", one)
        for system, name, option in wanted
        if (one := given(option, "price")) is not None
    ]
    priced.sort(key=lambda pair: -pair[1].value)
    dearest = priced[:15]
    svg = bars_plot(
        [name for name, _ in dearest],
        [one.value for _, one in dearest],
        x_label=f"price [{currency}]",
        low=[one.low for _, one in dearest],
        high=[one.high for _, one in dearest],
        texts=[money_text(one.value, currency) for _, one in dearest],
    )
    words = "; ".join(f"{name} {money_text(one.value, currency)}" for name, one in dearest)
    return Figure(svg=svg, caption="The dearest parts, with the band of each price.", words=words)
