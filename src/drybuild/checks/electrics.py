"""Questions about the twelve-volt system: charging, starting, and each circuit's wire and fuse."""

from __future__ import annotations

from drybuild.checks.check import Check

BATTERY = (
    "A battery gives hundreds of amps into a slipped spanner, its acid burns and its gas explodes: "
    "disconnect the earth first, and keep flames away."
)
WIRES = (
    "A wire without the right fuse can set the car on fire: fuse every circuit close to its "
    "source, and have high currents checked by someone trained."
)

CHECKS = (
    Check(
        id="electrics.charge-by-night",
        asks="Does the alternator carry everything on a night drive, with something to spare?",
        quantity="alternator_cover",
        label="cruise by night",
        at_least="1.2",
        source="bosch-handbook-electrics",
        caution=BATTERY,
        mend="A larger alternator, a smaller pulley, or lamps that draw less.",
    ),
    Check(
        id="electrics.charge-by-day",
        asks="Does the alternator carry everything by day, with something to spare?",
        quantity="alternator_cover",
        label="cruise by day",
        at_least="1.2",
        source="bosch-handbook-electrics",
        caution=BATTERY,
        mend="A larger alternator, or parts that draw less.",
    ),
    Check(
        id="electrics.idle-at-night",
        asks="Does the battery last through a jam at night in the rain?",
        quantity="idle_time_on_battery",
        at_least="30 min",
        source="common-practice",
        caution=BATTERY,
        mend="An alternator with more at idle, a smaller pulley, or fewer loads on at once.",
    ),
    Check(
        id="electrics.parked",
        asks="Does the car start after standing for two weeks?",
        quantity="parked_battery_time",
        at_least="14 days",
        source="common-practice",
        caution=BATTERY,
        mend="Find what draws current with all switched off, or fit an isolating switch.",
        advice=True,
    ),
    Check(
        id="electrics.cranking",
        asks="Is the battery strong enough for the starter in the cold?",
        quantity="starter_voltage",
        at_least="8 V",
        source="iso-16750-2",
        caution=BATTERY,
        mend="A battery with more cold cranking current, or thicker cables.",
    ),
    Check(
        id="electrics.starter-cable",
        asks="Do cables and earth bring the starter its voltage?",
        quantity="starter_cable_drop",
        at_most="0.5 V",
        source="bosch-handbook-electrics",
        caution=BATTERY,
        mend="A thicker or shorter cable, a second earth strap, clean joints.",
    ),
    Check(
        id="electrics.charging-cable",
        asks="Does the alternator's cable bring the battery its voltage?",
        quantity="charging_cable_drop",
        at_most="0.4 V",
        source="bosch-handbook-electrics",
        caution=WIRES,
        mend="A thicker cable, and a strap from engine to body.",
    ),
    Check(
        id="electrics.voltage-drop",
        asks="Does each circuit still deliver its working voltage at full current?",
        quantity="circuit_voltage_drop",
        at_most="circuit_allowed_drop",
        source="bosch-handbook-electrics",
        caution=WIRES,
        mend="Take the next larger conductor, shorten the run, feed it through a relay from a "
        "nearer point, or return by a wire.",
    ),
    Check(
        id="electrics.wire-temperature",
        asks="Does each wire stay cooler than its insulation stands?",
        quantity="circuit_conductor_temperature",
        at_most="insulation_limit",
        source="sae-j1128",
        caution=WIRES,
        mend="Take a larger conductor, smaller bundles, a cooler route, or insulation that stands "
        "more.",
    ),
    Check(
        id="electrics.wire-over-fuse",
        asks="Does each fuse open before its wire burns?",
        quantity="circuit_wire_over_fuse",
        at_least="1",
        source="iso-8820-3",
        caution=WIRES,
        mend="Take a larger conductor, or a smaller fuse that still carries the load.",
    ),
    Check(
        id="electrics.fuse-load",
        asks="Does each fuse carry its load for good?",
        quantity="circuit_fuse_load",
        at_most="80 %",
        source="fuseology-guide",
        caution=WIRES,
        mend="The next larger fuse, if the wire carries it; or divide the circuit.",
    ),
    Check(
        id="electrics.fuse-opens",
        asks="Does a dead short at the far end open each fuse at once?",
        quantity="circuit_fuse_opens",
        at_least="1",
        source="iso-8820-3",
        caution=WIRES,
        mend="A larger conductor or a shorter run, so that enough current flows to open it.",
        advice=True,
    ),
    Check(
        id="electrics.short-circuit",
        asks="Does each wire survive a short until its fuse opens?",
        quantity="circuit_short_reserve",
        at_least="1",
        source="iec-60364-5-54",
        caution=WIRES,
        mend="A larger conductor.",
    ),
)
