"""Words and lines of drawings stand out from their ground, on light and on dark paper."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest

from drybuild.present.drawing import TONES

WORDS, LINES = 4.5, 3.0
"""WCAG 2.2, success criteria 1.4.3 and 1.4.11: least contrasts, and luminance (from memory)."""
OF_LINES = ("sky", "amber")
"""Tones for lines only; every other strong tone writes words too."""


def schemes() -> dict[str, dict[str, str]]:
    text = files("drybuild").joinpath("present", "colours.css").read_text("utf-8")
    light, dark = re.findall(r":root \{([^}]*--ink[^}]*--pale[^}]*)\}", text)
    told = [dict(re.findall(r"--([\w-]+): (#\w{6})", one)) for one in (light, dark)]
    return {"light": told[0], "dark": told[1]}


def luminance(colour: str) -> float:
    parts = [int(colour[k : k + 2], 16) / 255.0 for k in (1, 3, 5)]
    linear = [v / 12.92 if v <= 0.03928 else ((v + 0.055) / 1.055) ** 2.4 for v in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_contrast_of_black_on_white() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_tones_stand_out_from_paper(scheme: str) -> None:
    tones = schemes()[scheme]
    strong = [one for one in TONES if one not in ("rule", "band", "paper") and "pale" not in one]
    for tone in strong:
        least = LINES if tone in OF_LINES else WORDS
        assert contrast(tones[tone], tones["paper"]) >= least, tone


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_ink_is_read_on_every_fill(scheme: str) -> None:
    tones = schemes()[scheme]
    for fill in ("draw-band", *(one for one in TONES if "pale" in one)):
        assert contrast(tones["ink"], tones[fill]) >= WORDS, fill


def test_every_tone_has_its_colour_and_its_classes() -> None:
    text = files("drybuild").joinpath("present", "colours.css").read_text("utf-8")
    for tone in TONES:
        assert f".f-{tone} {{" in text, tone
