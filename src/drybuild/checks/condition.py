"""How much is known of the body, and whether what carries it is likely to be sound."""

from __future__ import annotations

from drybuild.checks.check import Check

CAUTION = (
    "Rust in rails, sills, towers and belt mounts is a matter of life: nobody knows it before the "
    "shell is stripped and blasted. Prop the body before probing underneath; structural repair "
    "belongs to licensed practice."
)

CHECKS = (
    Check(
        id="condition.known",
        asks="Are few zones left that nobody has probed or laid bare?",
        quantity="unprobed_share",
        at_most="30 %",
        caution=CAUTION,
        mend="Strip and blast; before that, probe the zones with the greatest doubt first.",
        advice=True,
    ),
    Check(
        id="condition.structure",
        asks="Is no carrying zone likelier to be replaced than to stay?",
        quantity="rust_structural_odds",
        at_most="50 %",
        caution=CAUTION,
        mend="Look closer where the odds are worst, and plan hours, sheet and a jig for it.",
        advice=True,
    ),
    Check(
        id="condition.cut-together",
        asks="Do your jobs leave nothing open together that must not be?",
        quantity="rust_cut_together",
        at_most="0",
        caution=CAUTION,
        mend="Put one of the two jobs after the other, brace first, and measure the datum points "
        "between them.",
    ),
)
