"""Problems found when a sheet's worked examples are run (80x)."""

from __future__ import annotations

from typing import Final

from grammar.diagnostics.entry import Entry, Severity

_ERROR: Final = Severity.ERROR

EXAMPLES: Final[tuple[Entry, ...]] = (
    Entry("801", _ERROR, "A worked example prints another value than comes out",
          "{example} expects {subject} {expected}, and {found} comes out{off}.",
          "Compare the loads, arms and the printed value with the manual."),
    Entry("802", _ERROR, "A worked example states another verdict than comes out",
          "{example} expects {limit} {expected}, and it comes out {found}.",
          "Compare the limit and the example's loads with the manual."),
    Entry("803", _ERROR, "A worked example states another margin than comes out",
          "{example} expects {limit} {expected} by {by}, and it comes out {found}.",
          "Compare the limit and the example's loads with the manual."),
    Entry("804", _ERROR, "A value in a worked example cannot be told",
          "{example} expects {subject} {expected}, which cannot be told: {needs}.",
          "State in the example what the manual's example states."),
    Entry("805", _ERROR, "A verdict in a worked example cannot be told",
          "{example} expects {limit} {expected}, which cannot be told: {needs}.",
          "State in the example what the manual's example states."),
)  # fmt: skip
