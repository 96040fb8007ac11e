"""Slips of the pen in letters and signs, found outside labels and comments before a statement is read.

The whole file is gone through once with one pattern. Whatever is fine is passed over; each other piece has a name,
and its name is the key of the code and the mend in ``corrections``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from grammar.diagnostics.problem import Mend, Problem
from grammar.reading.correcting import Slip, is_paragraph
from grammar.reading.corrections import CORRECTIONS, FIGURES
from grammar.reading.days import GOOD_DAY, IN_WORDS, YEAR_FIRST, YEAR_LAST
from grammar.text import SourceText

_LETTER: Final = r"[^\W\d_A-Za-z²³¹⁰⁴-⁹¼-¾⅐-⅞ºª]"
_THIN: Final = r"[ \u00a0\u2009\u202f'’]"
_ALONE: Final = r"(?<![\w.,])"

_PIECES: Final = {
    # what is fine as it is, most of it in one piece, and what is looked at elsewhere
    "plain": r"(?:[ ()\n,+]|-(?!-)|\|(?!\|)|(?<!\w)(?!let\b|amend\b|deg)[a-z_][a-z0-9_]{0,79}+(?!\w))++",
    "let": r"(?m:^)(?:amend[ \t]+)?let[ \t]+(?:[A-Za-z0-9_-]{1,80}[ \t]*)?=(?!=)",
    "inches": r"(?<=\d)[\"″](?=[\s,)]|$)",
    "label": r'"[^"\n”]*"',
    "comment": r"--[^\n]*",
    # labels
    "curly_label": r"[“”„‟«»][^“”„‟«»\"\n]*[“”‟«»\"]|\"[^\"\n”]*”",
    "single_label": r"(?<![\d'’])['‘’`][^'‘’`\n]*['’`]",
    "open_label": r"[\"“”„‟«»][^\n]*",
    "feet": r"(?<=\d)['’′]",
    # dates and figures
    "good_day": GOOD_DAY,
    "odd_day": rf"{_ALONE}(?:{YEAR_FIRST}|{YEAR_LAST}|{IN_WORDS})",
    "power_of_ten": rf"{_ALONE}\d+(?:[.,]\d+)?[eE][+-]?\d+(?![\w.])",
    "thousands_sign": (
        rf"{_ALONE}(?:\d{{1,3}}(?:,\d{{3}})+\.\d+|\d{{1,3}}(?:,\d{{3}}){{2,}}(?![\d,])"
        rf"|\d{{1,3}}(?:\.\d{{3}})+,\d+(?!\d)|\d{{1,3}}(?:\.\d{{3}}){{2,}}(?![\d.]))"
    ),
    "thousands_gap": rf"{_ALONE}\d{{1,3}}(?:{_THIN}\d{{3}}){{1,5}}(?:[.,]\d+)?(?!\d|{_THIN}\d)",
    "fraction_sign": rf"{_ALONE}\d{{1,9}}[ ]?[¼-¾⅐-⅞]|[¼-¾⅐-⅞]",
    "comma_figure": rf"{_ALONE}\d+,\d+(?![\d.])",
    "dots": r"\.\.+|…",
    "figure": r"\d++\.\d+|\d++(?!\.(?![\d.]))",
    "bare_point": r"\d+\.(?!\.)|(?<![\w.)])\.\d+",
    # words
    "degrees": r"[°º˚][ ]?[CFcf]\b|[°º˚]|℃|℉|\bdeg(?:rees?)?[ .]?[CF]\b(?<!degC)(?<!degF)",
    "word": rf"(?:[A-Za-z_]|{_LETTER})(?:[A-Za-z0-9_]|{_LETTER})*",
    # signs
    "at_most": r"<=|=<|≤|⩽|≦",
    "at_least": r">=|=>|≥|⩾|≧",
    "is_not": r"!=+|<>|≠|=!=|~=",
    "equals": r"=+",
    "and_sign": r"&+|∧",
    "or_sign": r"\|\||∨",
    "not_sign": r"!|¬",
    "dash_comment": r"[‒–]{2}[^\n]*",
    "long_dash": r"[—―][^\n]*",
    "short_dash": r"[‐-–−﹣－]",
    "times": r"[×✕✖⨯∗⋅·∙•]",
    "divided": r"[÷∕⁄]",
    "raised": r"[²³¹⁰⁴-⁹]+",
    "power": r"\^|\*\*+",
    "foreign_comment": r"#[^\n]*|//[^\n]*|/\*[^\n]*",
    "stop": r"[;:]",
    "other_bracket": r"[\[\]{}]",
    # blanks
    "odd_space": r"[\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]+",
    "tab": r"\t+",
    "damaged": r"[\ud800-\udfff\ufffd]+",
    "hidden": r"[\u200b-\u200f\u202a-\u202e\u2060-\u206f\ufeff\u00ad]+",
    "control": r"(?:[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029]|\r(?!\n))+",
    "foreign_sign": r"[^ \n\r().,<>+*/|%-]",
}
_SCAN: Final = re.compile("|".join(f"(?P<{name}>{pattern})" for name, pattern in _PIECES.items()))

_WITHIN: Final = re.compile("|".join(f"(?P<{name}>{_PIECES[name]})" for name in ("damaged", "hidden", "control")))
"""What must not stand even in labels and comments: it would be shown wrongly, or hide what is written."""


_SPEECH: Final = frozenset(
    {
        "label", "comment", "curly_label", "single_label", "open_label", "dash_comment", "long_dash",
        "foreign_comment",
    }
)  # fmt: skip
"""The pieces in which everything else may be written."""


def find_slips(source: SourceText) -> Iterator[Problem]:
    """Every slip of the pen in the file, in the order of the text."""
    text = source.text
    for found in _SCAN.finditer(text, 1 if text.startswith("\ufeff") else 0):
        name = str(found.lastgroup)
        if name in CORRECTIONS:
            slip = CORRECTIONS[name](text, found.start(), found.end())
            if slip is not None:
                yield _problem(source, _undoubted(name, slip, text))
        if name in _SPEECH:
            yield from _slips_within(source, found)


def _undoubted(name: str, slip: Slip, text: str) -> Slip:
    """The slip without its mend where a paragraph belongs: that looks like a figure and must not be touched."""
    if name not in FIGURES or not is_paragraph(text, slip.start):
        return slip
    return Slip(slip.code, slip.start, slip.end, facts=slip.facts)


def _slips_within(source: SourceText, stretch: re.Match[str]) -> Iterator[Problem]:
    """Slips inside a label or a comment."""
    end = stretch.end() - (stretch[0].endswith("\r") and source.text.startswith("\n", stretch.end()))
    for found in _WITHIN.finditer(source.text, stretch.start(), end):
        slip = CORRECTIONS[str(found.lastgroup)](source.text, found.start(), found.end())
        if slip is not None:
            yield _problem(source, slip)


def _problem(source: SourceText, slip: Slip) -> Problem:
    span = source.span(slip.start, slip.end)
    facts = {"found": source.text[slip.start : slip.end], **slip.facts}
    mend = None if slip.mend is None else Mend(span, slip.mend)
    return Problem(slip.code, span, facts, suggestion=slip.suggestion, mend=mend)
