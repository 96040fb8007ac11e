"""For each slip of the pen, by the name that the scan gives it, what is to be said about it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from grammar.reading import figure_slips, label_slips, sign_slips
from grammar.reading.correcting import Correct, worded

FIGURES: Final[Mapping[str, Correct]] = MappingProxyType(
    {
        "inches": figure_slips.measure_mark("in"),
        "feet": figure_slips.measure_mark("ft"),
        "odd_day": figure_slips.odd_day,
        "power_of_ten": figure_slips.power_of_ten,
        "thousands_sign": figure_slips.thousands_sign,
        "thousands_gap": figure_slips.thousands_gap,
        "fraction_sign": figure_slips.fraction_sign,
        "comma_figure": figure_slips.comma_figure,
        "dots": figure_slips.dots,
        "bare_point": figure_slips.bare_point,
        "figure": figure_slips.figure,
    }
)
"""Slips in dates and figures."""

_LABELS: Final[Mapping[str, Correct]] = MappingProxyType(
    {
        "curly_label": label_slips.label("101"),
        "single_label": label_slips.label("102"),
        "open_label": label_slips.open_label,
        "word": label_slips.word,
        "dash_comment": label_slips.dash_comment,
        "foreign_comment": label_slips.foreign_comment,
        "damaged": label_slips.named("128"),
        "hidden": label_slips.named("127"),
        "control": label_slips.named("123"),
    }
)

_SIGNS: Final[Mapping[str, Correct]] = MappingProxyType(
    {
        "at_most": worded("110", "at most", "<= ≤ ⩽ ≦"),
        "at_least": worded("110", "at least", ">= ≥ ⩾ ≧"),
        "is_not": worded("112", "is not", "!= ≠ <>"),
        "equals": sign_slips.equals,
        "and_sign": worded("113", "and", "&& ∧"),
        "or_sign": sign_slips.or_sign,
        "not_sign": worded("113", "not", "¬"),
        "degrees": sign_slips.degrees,
        "long_dash": sign_slips.long_dash,
        "short_dash": sign_slips.short_dash,
        "times": sign_slips.times,
        "divided": sign_slips.divided,
        "raised": sign_slips.raised,
        "power": sign_slips.power,
        "stop": sign_slips.stop,
        "other_bracket": sign_slips.other_bracket,
        "odd_space": sign_slips.odd_space,
        "tab": sign_slips.tab,
        "foreign_sign": sign_slips.foreign_sign,
    }
)

CORRECTIONS: Final[Mapping[str, Correct]] = MappingProxyType({**FIGURES, **_LABELS, **_SIGNS})
"""What is to be said about each piece that stands out, by the name that the scan gives it."""
