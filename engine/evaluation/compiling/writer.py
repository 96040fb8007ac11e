"""Writing generated code: lines, fresh names, and no sum or product worked out twice.

Only whole numbers, names of the writer's own making and the fixed words of this package are ever written;
nothing that stands in a sheet or a request becomes code.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Final

from engine.evaluation.compiling.forms import Form, common_scale, named, rescaled, total

STANDS: Final = 0
"""The degree of what does not move with the burn."""

BENT: Final = 99
"""The degree of what moves, but as no polynomial of the amount burned."""


class BeyondCompiling(Exception):
    """Something that the compiled way does not cover; the plain evaluator does."""


@dataclass(slots=True)
class _Opening:
    """Where a block begins: its head's line and indentation."""

    line: int
    depth: int


@dataclass(slots=True)
class Writer:
    """The body of one function as it grows.

    ``degrees`` has for each name its degree in the amount burned. ``is_late`` marks the names that hang on
    the fuel: a sum's other terms are added up once for all stages of the flight; ``squares`` has the name
    that a name is the square of, where that one changes evenly. ``leasts`` has for some names a number that
    they are never below. ``keeps_all`` asks for
    every value on the way to be given a name.
    """

    keeps_all: bool
    lines: list[str] = field(default_factory=list)
    degrees: dict[str, int] = field(default_factory=dict)
    late: set[str] = field(default_factory=set)
    squares: dict[str, str] = field(default_factory=dict)
    depth: int = 1
    leasts: dict[str, int] = field(default_factory=dict)
    _known: list[dict[str, str]] = field(default_factory=lambda: [{}])
    _open: list[_Opening] = field(default_factory=list)
    _loops: int = 0
    _count: int = 0

    def line(self, text: str) -> None:
        """One line at the present indentation."""
        self.lines.append("    " * self.depth + text)

    @contextmanager
    def loop(self, head: str) -> Iterator[None]:
        """An indented loop; what does not change from turn to turn is worked out before it."""
        self._loops += 1
        with self.block(head):
            yield
        self._loops -= 1

    @contextmanager
    def block(self, head: str) -> Iterator[None]:
        """An indented block; what is named in it is not known after it."""
        self._open.append(_Opening(len(self.lines), self.depth))
        self.line(head)
        self.depth += 1
        self._known.append({})
        yield
        self._known.pop()
        self.depth -= 1
        self._open.pop()

    def before_block(self, text: str) -> None:
        """One line just before the innermost block."""
        self._insert(self._open[-1], text)

    def _insert(self, before: _Opening, text: str) -> None:
        self.lines.insert(before.line, "    " * before.depth + text)
        for opening in self._open[self._open.index(before) :]:
            opening.line += 1

    def fresh(self, degree: int = STANDS, *, is_late: bool = False) -> str:
        """A new name."""
        self._count += 1
        name = f"x{self._count}"
        self.degrees[name] = degree
        if is_late:
            self.late.add(name)
        return name

    def let(self, text: str, degree: int, *, is_late: bool) -> str:
        """The name of what a piece of code comes to; the same name for the same piece."""
        if text in self.degrees:
            return text
        for scope in reversed(self._known):
            if text in scope:
                return scope[text]
        name = self.fresh(degree, is_late=is_late)
        if self._loops and degree == STANDS:
            self._known[0][text] = name
            self._insert(self._open[0], f"{name} = {text}")
        else:
            self._known[-1][text] = name
            self.line(f"{name} = {text}")
        return name

    @contextmanager
    def attempt(self) -> Iterator[None]:
        """A piece of code that is taken back as a whole where it turns out to be beyond the compiled way."""
        before = replace(self, lines=list(self.lines), _known=[dict(scope) for scope in self._known])
        try:
            yield
        except BeyondCompiling:
            self.lines, self._known, self._open = before.lines, before._known, []
            self.depth, self._loops, self.keeps_all = before.depth, before._loops, before.keeps_all
            raise

    # ---- forms

    def degree(self, form: Form) -> int:
        """The degree of the whole numbers above in the amount burned."""
        return max((self.degrees[name] for name, _ in form.terms), default=STANDS)

    def degree_below(self, form: Form) -> int:
        """The degree of what a form is divided by."""
        return STANDS if form.below is None else self.degrees[form.below]

    def is_late(self, form: Form) -> bool:
        """Whether the form hangs on the fuel."""
        return any(name in self.late for name, _ in form.terms)

    def text(self, form: Form) -> str:
        """The whole numbers of a form as code, without what they are divided by."""
        early = tuple(term for term in form.terms if term[0] not in self.late)
        late = tuple(term for term in form.terms if term[0] in self.late)
        if late and (len(early) > 1 or (early and form.constant)):
            sign = 1 if early[0][1] > 0 else -1
            shared = self.single(Form(early, form.constant, form.scale).scaled(Fraction(sign)))
            times = sign * int(shared.scale / form.scale)
            return _spelled(((shared.terms[0][0], times), *late), 0)
        spelled = _spelled(form.terms, form.constant)
        return next((scope[spelled] for scope in self._known if spelled in scope), spelled)

    def single(self, form: Form) -> Form:
        """The same value with its whole number under one name (a constant stays as it is)."""
        form = form.primitive()
        if form.is_constant or form.single is not None:
            return form
        name = self.let(self.text(form), self.degree(form), is_late=self.is_late(form))
        least = self.least(form)
        if least is not None:
            self.leasts[name] = least
        return named(name, form.scale, form.below)

    def least(self, form: Form) -> int | None:
        """A number that the whole numbers of a form are never below, where one can be told."""
        if any(k < 0 or name not in self.leasts for name, k in form.terms):
            return None
        return form.constant + sum(k * self.leasts[name] for name, k in form.terms)

    def name_of(self, form: Form) -> str:
        """The name or the figure of a form's whole number."""
        made = self.single(form)
        return str(made.constant) if made.is_constant else made.terms[0][0]

    def positive(self, form: Form) -> Form:
        """The form under one name that is known to hold more than zero; what is not goes to the evaluator."""
        made = self.single(form)
        if made.is_constant or made.below is not None:
            raise BeyondCompiling("a divisor that is a constant or a quotient")
        name = made.terms[0][0]
        guard = f"guard of {name}"
        if self.leasts.get(name, 0) <= 0 and not any(guard in scope for scope in self._known):
            self._known[-1][guard] = name
            self.line(f"if {name} <= 0: return None")
        return made

    def times(self, a: str, b: str) -> str:
        """The product of two names."""
        first, second = sorted((a, b))
        degree = min(self.degrees[a] + self.degrees[b], BENT)
        name = self.let(f"{first} * {second}", degree, is_late=a in self.late or b in self.late)
        if a == b and self.degrees[a] == 1:
            self.squares[name] = a
        return name

    def product(self, a: Form, b: Form) -> Form:
        """The product of two forms."""
        for one, other in ((a, b), (b, a)):
            if one.is_constant:
                return other.scaled(one.value)
        a, b = self.single(a), self.single(b)
        name = self.times(a.terms[0][0], b.terms[0][0])
        below = self._product_below(a.below, b.below)
        return named(name, a.scale * b.scale, below)

    def quotient(self, a: Form, b: Form) -> Form:
        """One form divided by another that is more than zero."""
        if b.is_constant:
            if not b.value:
                raise BeyondCompiling("a division by zero")
            return a.scaled(1 / b.value)
        if b.below is not None:
            a = self.product(a, named(b.below))
        divisor = self.positive(b.over(None))
        if a.is_constant and not a.constant:
            return a
        below = self._product_below(a.below, divisor.terms[0][0])
        if not a.is_constant:
            a = self.single(a)
        return Form(a.terms, a.constant, a.scale / divisor.scale, below)

    def _product_below(self, a: str | None, b: str | None) -> str | None:
        return self.times(a, b) if a and b else a or b

    def sum(self, forms: tuple[Form, ...]) -> Form:
        """The sum of forms, brought to one divisor."""
        return total(self.over_one(forms))

    def over_one(self, forms: tuple[Form, ...]) -> tuple[Form, ...]:
        """The same values over one divisor."""
        divisors = tuple(dict.fromkeys(form.below for form in forms if form.below))
        for divisor in divisors:
            forms = tuple(self._widened(form, divisor, divisors) for form in forms)
        if not divisors:
            return forms
        below = divisors[0]
        for divisor in divisors[1:]:
            below = self.times(below, divisor)
        return tuple(form.over(below) for form in forms)

    def _widened(self, form: Form, divisor: str, divisors: tuple[str, ...]) -> Form:
        """The form multiplied above by a divisor that it does not have."""
        if form.below == divisor:
            return form
        terms = tuple((self.times(name, divisor), k) for name, k in form.terms)
        whole = ((divisor, form.constant),) if form.constant else ()
        kept = form.below if form.below in divisors else None
        return Form(terms + whole, 0, form.scale, kept)

    def alike(self, forms: tuple[Form, ...]) -> tuple[tuple[str, ...], Fraction, str | None]:
        """Several values as names or figures at one scale, over one divisor."""
        forms = self.over_one(forms)
        scale = common_scale(form.scale for form in forms if form.terms or form.constant)
        return tuple(self.at_scale(form, scale) for form in forms), scale, forms[0].below

    def at_scale(self, form: Form, scale: Fraction) -> str:
        """The name or the figure of a form's whole number at just this scale."""
        form = rescaled(form, scale)
        if not form.terms:
            return str(form.constant)
        return form.single or self.let(self.text(form), self.degree(form), is_late=self.is_late(form))


def _spelled(terms: tuple[tuple[str, int], ...], constant: int) -> str:
    """A sum as code, such as ``3*v1 - v2 + 40``."""
    pieces = [_piece(name, k) for name, k in terms]
    if constant or not pieces:
        pieces.append(f"- {-constant}" if constant < 0 else f"+ {constant}")
    joined = " ".join(pieces)
    return joined.removeprefix("+ ")


def _piece(name: str, k: int) -> str:
    sign = "-" if k < 0 else "+"
    return f"{sign} {name}" if abs(k) == 1 else f"{sign} {abs(k)}*{name}"
