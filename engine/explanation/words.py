"""Words for an answer: labels inside a sentence, lists, small numbers, and letters that cannot be trusted."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from fractions import Fraction
from typing import Final

_TIMES: Final = {
    2: "twice",
    3: "three times",
    4: "four times",
    5: "five times",
    6: "six times",
    7: "seven times",
    8: "eight times",
    9: "nine times",
    10: "ten times",
}

_NEVER_PRINTED: Final = frozenset(("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"))
"""Categories of letters that move the cursor, turn the direction of writing or break a line."""


def clean(text: str) -> str:
    """The text on one line, every letter that could act on a terminal replaced by its number.

    A line break becomes a space; anything else that is not to be seen becomes ``<U+001B>`` and the like.
    """
    joined = " ".join(text.split())
    return "".join(_visible(letter) for letter in joined)


def seen(text: str) -> str:
    """The text in its own lines, every other letter that could act on a terminal replaced by its number."""
    return "\n".join("".join(_visible(letter) for letter in line) for line in text.split("\n"))


def _visible(letter: str) -> str:
    return f"<U+{ord(letter):04X}>" if unicodedata.category(letter) in _NEVER_PRINTED else letter


def inside_a_sentence(label: str) -> str:
    """A label as it stands inside a sentence: its first letter small, unless its first word is a short name.

    "Front seat" becomes "front seat"; "CP-1 pod" and "T2" stay, as their first word has no small letter.
    """
    text = clean(label)
    first, _, rest = text.partition(" ")
    is_plain = first != first.upper() or (first == "A" and rest)
    return text[:1].lower() + text[1:] if is_plain else text


def spaced(name: str) -> str:
    """A name of the sheet, or an option's word, in plain words: "solo_student" becomes "solo student"."""
    return clean(name.replace("_", " "))


def times(factor: Fraction) -> str | None:
    """The words for a small whole multiplier: "twice", "three times" up to "ten times"; None for others."""
    return _TIMES.get(factor.numerator) if factor.denominator == 1 else None


def listed(parts: Sequence[str], joiner: str = "and") -> str:
    """The parts as a list in a sentence: "a", "a and b", "a, b and c"; with semicolons if one has a comma."""
    if len(parts) < 2:
        return "".join(parts)
    if any("," in part for part in parts):
        return f"{'; '.join(parts[:-1])}; {joiner} {parts[-1]}"
    return f"{', '.join(parts[:-1])} {joiner} {parts[-1]}"


def counted(number: int, one: str, many: str | None = None) -> str:
    """A number with its noun: "1 limit", "2 limits"."""
    return f"{number} {one if number == 1 else many or one + 's'}"


# ---- labels of things and of places


_JOINTS: Final = frozenset(
    ("in", "on", "under", "behind", "beside", "above", "below", "between", "at", "for", "with", "of", "by", "to")
)
"""Words after which a label only says where its first thing is."""

_THINGS: Final = frozenset(
    (
        "adult", "baggage", "bag", "ballast", "block", "camera", "cargo", "child", "children", "copilot", "crew",
        "dog", "equipment", "freight", "fuel", "infant", "instructor", "luggage", "occupant", "oil",
        "parachute", "passenger", "people", "person", "pilot", "plate", "raft", "student", "suitcase", "tool",
        "water", "weight",
    )
)  # fmt: skip
"""What is carried, and so is "aboard"; every other label is taken as that of a place, which is "occupied"."""

_UPON: Final = frozenset(("floor", "hook", "rack", "roof", "shelf", "shelves", "tray"))
"""Places that carry what is on them and not in them."""


def main_word(label: str) -> str:
    """The word of a label that the others only describe: "locker" in "Locker under the right seat"."""
    words = clean(label).lower().split(",", 1)[0].split("(", 1)[0].split()
    for at, word in enumerate(words[1:], start=1):
        if word in _JOINTS:
            return words[at - 1]
    return words[-1] if words else ""


def is_plural(label: str) -> bool:
    """Whether a label is taken to speak of several: its main word ends in -s, and not in -ss, -us or -is."""
    word = main_word(label)
    return word in ("people", "children") or (word.endswith("s") and not word.endswith(("ss", "us", "is")))


def is_thing(label: str) -> bool:
    """Whether a label names what is carried ("Water in the left wing") and not where ("Left water tank")."""
    word = main_word(label)
    return word in _THINGS or word.removesuffix("s") in _THINGS


def carried_by(label: str) -> str:
    """What follows the mass that a place carries: "in the nose locker", "on the left shelf", "of the water"."""
    joint = "of" if is_thing(label) else "on" if main_word(label) in _UPON else "in"
    return f"{joint} the {inside_a_sentence(label)}"


def filled_or_empty(label: str, is_filled: bool) -> str:
    """Whether a place carries something: "the rear seats are empty", "the water in the left wing is aboard"."""
    verb = "are" if is_plural(label) else "is"
    words = ("not aboard", "aboard") if is_thing(label) else ("empty", "occupied")
    comma = "," if "," in label else ""
    return f"the {inside_a_sentence(label)}{comma} {verb} {words[is_filled]}"
