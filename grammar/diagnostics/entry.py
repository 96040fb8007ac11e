"""An entry of the catalogue of problems: a stable code and the words to say it with."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Severity(Enum):
    """Whether a sheet with the problem can be published."""

    ERROR = "error"
    WARNING = "warning"


@dataclass(frozen=True, slots=True)
class Entry:
    """One kind of problem. The templates name facts in braces: ``"{name} is declared twice"``.

    ``title`` heads its page; ``says`` states what is wrong here; ``remedy`` says what to do next.
    Codes are stable and never reused. 1xx letters and signs; 2xx how a statement is written; 3xx names;
    4xx kinds and units; 5xx figures, tables and envelopes; 6xx conditions, choices and stages; 7xx sources
    and headers; 8xx worked examples; 9xx sizes.
    """

    code: str
    severity: Severity
    title: str
    says: str
    remedy: str
