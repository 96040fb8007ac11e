"""Where an expression stands: at which stage, in which limit, and whether it may hang on the load."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.sheet import Stage


@dataclass(frozen=True, slots=True)
class Context:
    """``owner`` is the limit that the expression stands in. ``fixed`` names what is worked out where only facts
    and givens may be used, as in "the arm", and is None elsewhere. ``as_stated`` leaves out what an order adds
    to declared masses."""

    stage: Stage | None = None
    owner: str = ""
    fixed: str | None = None
    as_stated: bool = False

    def at(self, stage: Stage) -> Context:
        """The same place at another stage."""
        return replace(self, stage=stage)

    @property
    def sharing(self) -> str | None:
        """Whose own an expression at this stage is: what moves with the burn belongs to one limit alone."""
        return self.owner if self.stage is Stage.THROUGHOUT else None
