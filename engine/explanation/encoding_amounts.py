"""Amounts in generated code: where a value stands among the whole numbers, and how it is shown in a unit."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from grammar.figures import MOST_DECIMALS_IN_FULL, decimals_needed
from grammar.units import Unit


@dataclass(frozen=True, slots=True)
class WholeAmount:
    """``factor * above / below + zero`` in the unit that it is shown in; ``below`` holds more than zero.

    ``above`` and ``below`` are code for whole numbers; a constant has an ``above`` of 1.
    """

    above: str
    below: str
    factor: Fraction
    zero: Fraction = Fraction(0)

    @property
    def decimals(self) -> int | None:
        """How many decimals say every such value, where that is known beforehand and shown in full."""
        if self.below != "1":
            return None
        needed = (decimals_needed(self.factor), decimals_needed(self.zero))
        if needed[0] is None or needed[1] is None:
            return None
        most = max(needed[0], needed[1])
        return most if most <= MOST_DECIMALS_IN_FULL else None

    def scaled(self, decimals: int) -> str:
        """Code for the whole number of the last decimal."""
        times, zero = int(self.factor * 10**decimals), int(self.zero * 10**decimals)
        text = str(times) if self.above == "1" else self.above if times == 1 else f"{self.above}*{times}"
        if self.above == "1":
            return str(times + zero)
        return text if not zero else f"{text} + {zero}" if zero > 0 else f"{text} - {-zero}"

    def ratio(self) -> tuple[str, str]:
        """Code for the numerator and the denominator."""
        if self.zero:
            above, below = self.factor, self.zero
            common = above.denominator * below.denominator
            first = f"{self.above}*{above.numerator * below.denominator}"
            return f"({first} + {below.numerator * above.denominator}*{self.below})", f"{common}*{self.below}"
        return _times(self.above, self.factor.numerator), _times(self.below, self.factor.denominator)

    def in_unit(self, unit: Unit, *, is_difference: bool = False) -> WholeAmount:
        """An amount in base units as it is shown in a unit."""
        zero = Fraction(0) if is_difference else -unit.offset / unit.factor
        return replace(self, factor=self.factor / unit.factor, zero=self.zero / unit.factor + zero)


def _times(text: str, factor: int) -> str:
    """Code for a product with a whole number."""
    if factor == 1:
        return text
    return str(factor) if text == "1" else f"{text}*{factor}"


def constant_amount(value: Fraction) -> WholeAmount:
    """A value known beforehand."""
    return WholeAmount("1", "1", value)
