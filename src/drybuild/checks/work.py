"""Checks on money and time: the budget, the wanted end, orders in time, hours that suffice."""

from __future__ import annotations

from drybuild.checks.check import Check

CHECKS = (
    Check(
        id="work.budget",
        asks="Does the money last, whatever the body turns out to be?",
        quantity="total_cost",
        at_most="budget",
        probability=0.8,
        source="estimate-ranging",
        mend="Choose cheaper parts, keep more as it is, or look into the zones with the most doubt "
        "before you buy.",
    ),
    Check(
        id="work.finish-date",
        asks="Will it be on the road on the day you want?",
        quantity="finish_date",
        at_most="wanted_finish_date",
        probability=0.8,
        source="estimate-ranging",
        mend="Give more hours a week, hire the longest jobs out, order earlier, or move the day.",
    ),
    Check(
        id="work.orders-in-time",
        asks="Can every part still come before its job waits for it?",
        quantity="order_slack",
        at_least="0 s",
        band="14 d",
        source="stochastic-scheduling",
        mend="Order what is late today, ask for a shorter lead time, or put its job off.",
        advice=True,
    ),
    Check(
        id="work.hours-a-week",
        asks="Are your hours a week enough for the wanted end, waits aside?",
        quantity="hours_a_week_needed",
        at_most="hours_a_week_given",
        probability=0.8,
        source="definition",
        mend="Give more hours a week, hire work out, or move the day.",
        advice=True,
    ),
    Check(
        id="work.hidden-zones",
        asks="Does the plan reckon with what the body may hide?",
        quantity="zones_left_hidden",
        at_most="0",
        source="definition",
        mend="Say which of your jobs strips, bares, primes and closes the shell (stage: ...).",
        advice=True,
    ),
    Check(
        id="work.waiting",
        asks="Do you seldom stand and wait?",
        quantity="waiting_share",
        at_most="25 %",
        source="common-practice",
        mend="Order earlier, send work out sooner, and keep bench jobs for the days of cure.",
        advice=True,
    ),
)
