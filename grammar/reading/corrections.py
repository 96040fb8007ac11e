"""For each slip of the pen: its code, the exact letters it is about, and the correction where that is certain."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

from grammar.reading.days import certain_day


@dataclass(frozen=True, slots=True)
class Slip:
    """A slip at ``start`` to ``end`` of a text; ``mend`` is what certainly belongs there instead."""

    code: str
    start: int
    end: int
    mend: str | None = None
    suggestion: str | None = None
    facts: Mapping[str, str] = field(default_factory=dict)


Correct = Callable[[str, int, int], Slip | None]
"""From a text and the stretch of it that stood out, the slip there, or none if all is well after all."""


def _always(code: str, mend: str | None = None) -> Correct:
    """The same code and the same mend whatever was written."""

    def correct(_text: str, start: int, end: int) -> Slip:
        return Slip(code, start, end, mend)

    return correct


def _worded(code: str, words: str) -> Correct:
    """A sign for which the language has words: they replace it, set off by blanks."""

    def correct(text: str, start: int, end: int) -> Slip:
        before = "" if start == 0 or text[start - 1].isspace() else " "
        after = "" if end == len(text) or text[end].isspace() else " "
        return Slip(code, start, end, f"{before}{words}{after}", facts={"words": words})

    return correct


_LOOK_BACK: Final = 400

DIGITS: Final = 40
NAME_LETTERS: Final = 80


# ---- labels


def _label(code: str) -> Correct:
    """A label between marks of another shape."""

    def correct(text: str, start: int, end: int) -> Slip:
        inside = text[start + 1 : end - 1]
        return Slip(code, start, end, None if '"' in inside else f'"{inside}"')

    return correct


def _open_label(text: str, start: int, end: int) -> Slip:
    return Slip("103", start, start + len(text[start:end].rstrip()))


def _measure_mark(unit: str) -> Correct:
    """The marks for feet and inches behind a figure."""

    def correct(text: str, start: int, end: int) -> Slip:
        figure = start
        while figure > 0 and (text[figure - 1].isdigit() or text[figure - 1] == "."):
            figure -= 1
        mend = f"{text[figure:start]} {unit}" + ("" if end == len(text) or not text[end].isalnum() else " ")
        return Slip("133", figure, end, mend, facts={"unit": unit})

    return correct


# ---- dates and figures


def _odd_day(text: str, start: int, end: int) -> Slip:
    return Slip("119", start, end, certain_day(text[start:end]))


def _power_of_ten(_text: str, start: int, end: int) -> Slip:
    return Slip("130", start, end)


def _thousands_sign(text: str, start: int, end: int) -> Slip:
    """Both signs, or one sign twice: the last one is the decimal sign only if the other stands before it."""
    written = text[start:end]
    last = "," if written.rfind(",") > written.rfind(".") else "."
    if not {",", "."} <= set(written):
        return Slip("108", start, end, written.replace(last, ""))
    whole, _, decimals = written.rpartition(last)
    return Slip("108", start, end, whole.replace(",", "").replace(".", "") + "." + decimals)


def _thousands_space(text: str, start: int, end: int) -> Slip:
    return Slip("107", start, end, re.sub(r"[^\d.,]", "", text[start:end]).replace(",", "."))


def _comma_figure(text: str, start: int, end: int) -> Slip | None:
    """A comma inside a figure; inside brackets it may as well part two values, and stays for the grammar."""
    if _bracket_open(text, start):
        return None
    whole, decimals = text[start:end].split(",")
    if len(decimals) == 3 and 1 <= len(whole) <= 3 and not whole.startswith("0"):
        facts = {"point": f"{whole}.{decimals}", "joined": whole + decimals}
        return Slip("106", start, end, facts=facts)
    return Slip("105", start, end, f"{whole}.{decimals}")


def _bracket_open(text: str, at: int) -> bool:
    """Whether a round bracket is open at ``at``, as far as the text shortly before in its statement tells."""
    before = text[max(0, at - _LOOK_BACK) : at]
    margins = [line.end() for line in re.finditer(r"\n(?=\S)", before)]
    before = before[margins[-1] :] if margins else before
    return before.count("(") > before.count(")")


def _bare_point(text: str, start: int, end: int) -> Slip:
    written = text[start:end]
    return Slip("118", start, end, f"0{written}" if written.startswith(".") else written.rstrip("."))


def _figure(_text: str, start: int, end: int) -> Slip | None:
    """A figure is fine, unless it has more digits than anything that was ever measured."""
    return Slip("906", start, end, facts={"most": str(DIGITS)}) if end - start > DIGITS else None


def _fraction_sign(text: str, start: int, end: int) -> Slip:
    """``2½`` is 2.5; thirds have no decimals that end."""
    thousandths = unicodedata.numeric(text[end - 1]) * 1000
    whole = text[start : end - 1].strip() or "0"
    if thousandths != int(thousandths):
        return Slip("116", start, end)
    decimals = f"{int(thousandths):03}".rstrip("0")
    return Slip("116", start, end, f"{whole}.{decimals}")


def _dots(_text: str, start: int, end: int) -> Slip:
    return Slip("226", start, end)


# ---- words


def _degrees(text: str, start: int, end: int) -> Slip:
    """Degrees Celsius or Fahrenheit; a lone degree sign does not say which."""
    scale = {"℃": "C", "℉": "F"}.get(text[start], text[end - 1].upper())
    if scale not in "CF":
        return Slip("109", start, end)
    before = " " if start > 0 and text[start - 1].isdigit() else ""
    return Slip("109", start, end, f"{before}deg{scale}")


def _word(text: str, start: int, end: int) -> Slip | None:
    word = text[start:end]
    if len(word) > NAME_LETTERS:
        return Slip("907", start, end, facts={"most": str(NAME_LETTERS)})
    if word.isascii():
        return None
    strange = "".join(dict.fromkeys(letter for letter in word if not letter.isascii()))
    return Slip("126", start, end, facts={"strange": strange})


# ---- signs


def _equals(text: str, start: int, end: int) -> Slip | None:
    """A sign of equality anywhere but behind the name of a ``let``."""
    line_start = text.rfind("\n", 0, start) + 1
    if text.startswith("let ", line_start) and "=" not in text[line_start:start]:
        return None if end - start == 1 else Slip("111", start, end, "=", facts={"words": "="})
    before = "" if text[start - 1 : start].isspace() else " "
    after = "" if text[end : end + 1].isspace() else " "
    return Slip("111", start, end, f"{before}is{after}", facts={"words": "is"})


def _or_sign(text: str, start: int, end: int) -> Slip | None:
    """Two bars mean "or" to some; in a row they are an empty cell."""
    line = text[text.rfind("\n", 0, start) + 1 : start + 1]
    return None if line.lstrip().startswith("|") else _worded("113", "or")(text, start, end)


def _times(text: str, start: int, end: int) -> Slip:
    """A sign of multiplication; between the letters of a unit it is the unit's point."""
    letters = text[start - 1 : start].isalpha() and text[end : end + 1].isalpha()
    sign = "." if letters and text[start] in "·⋅∙" else "*"
    return Slip("115", start, end, sign, facts={"sign": sign})


def _divided(_text: str, start: int, end: int) -> Slip:
    return Slip("115", start, end, "/", facts={"sign": "/"})


def _raised(text: str, start: int, end: int) -> Slip:
    """A small raised figure: part of a unit behind a letter, else a power, which the language does not have."""
    if text[start - 1 : start].isalpha():
        return Slip("117", start, end, unicodedata.normalize("NFKC", text[start:end]))
    return Slip("131", start, end)


def _power(text: str, start: int, end: int) -> Slip:
    unit = re.search(r"(?<![A-Za-z0-9_])(?:mm|cm|m|in|ft)$", text[max(0, start - 8) : start])
    return Slip("131", start, end, "" if unit and text[end : end + 1] in {"2", "3"} else None)


def _foreign_comment(text: str, start: int, end: int) -> Slip:
    """Another language's sign for a comment."""
    sign = re.match(r"#+|//+|/\*+", text[start:end])
    stop = start + (sign.end() if sign else 1)
    certain = not text.startswith("/*", start)
    return Slip("124", start, stop, "--" if certain else None)


def _dash_comment(_text: str, start: int, _end: int) -> Slip:
    return Slip("114", start, start + 2, "--", facts={"sign": "--"})


def _long_dash(_text: str, start: int, _end: int) -> Slip:
    return Slip("135", start, start + 1)


def _stop(text: str, start: int, end: int) -> Slip:
    """A stop that only ends a line or follows a word can go."""
    alone = end == len(text) or text[end].isspace()
    return Slip("132", start, end, "" if alone and text[start - 1 : start].strip() else None)


def _other_bracket(text: str, start: int, end: int) -> Slip:
    sign = "(" if text[start] in "[{" else ")"
    return Slip("125", start, end, sign, facts={"sign": sign})


# ---- blanks


def _tab(text: str, start: int, end: int) -> Slip:
    return Slip("122", start, end, "  " * (end - start) if text[start - 1 : start] in {"", "\n"} else " ")


def _named(code: str) -> Correct:
    """A character that cannot be seen on the page: its number is told. No correction is certain."""

    def correct(text: str, start: int, end: int) -> Slip:
        numbers = ", ".join(dict.fromkeys(f"U+{ord(letter):04X}" for letter in text[start:end]))
        return Slip(code, start, end, facts={"number": numbers})

    return correct


def _foreign_sign(text: str, start: int, end: int) -> Slip:
    return Slip("129", start, end, facts={"number": f"U+{ord(text[start]):04X}"})


CORRECTIONS: Final[Mapping[str, Correct]] = MappingProxyType(
    {
        "inches": _measure_mark("in"),
        "feet": _measure_mark("ft"),
        "curly_label": _label("101"),
        "single_label": _label("102"),
        "open_label": _open_label,
        "odd_day": _odd_day,
        "power_of_ten": _power_of_ten,
        "thousands_sign": _thousands_sign,
        "thousands_space": _thousands_space,
        "fraction_sign": _fraction_sign,
        "comma_figure": _comma_figure,
        "dots": _dots,
        "bare_point": _bare_point,
        "degrees": _degrees,
        "figure": _figure,
        "word": _word,
        "at_most": _worded("110", "at most"),
        "at_least": _worded("110", "at least"),
        "is_not": _worded("112", "is not"),
        "equals": _equals,
        "and_sign": _worded("113", "and"),
        "or_sign": _or_sign,
        "not_sign": _worded("113", "not"),
        "dash_comment": _dash_comment,
        "long_dash": _long_dash,
        "short_dash": lambda _text, start, end: Slip("114", start, end, "-", facts={"sign": "-"}),
        "times": _times,
        "divided": _divided,
        "raised": _raised,
        "power": _power,
        "foreign_comment": _foreign_comment,
        "stop": _stop,
        "other_bracket": _other_bracket,
        "odd_space": _always("104", " "),
        "tab": _tab,
        "damaged": _named("128"),
        "hidden": _named("127"),
        "control": _named("123"),
        "foreign_sign": _foreign_sign,
    }
)
"""What is to be said about each piece that stands out, by the name that the scan gives it."""
