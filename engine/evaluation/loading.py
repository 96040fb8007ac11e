"""What a request and an airframe's record state, by the names of the sheet's inputs, in base units."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Loading:
    """The values stated, by input name: a Fraction in base units, or an option's word.

    An input that nobody states is absent: missing is not zero.
    """

    stated: Mapping[str, Fraction | str]
