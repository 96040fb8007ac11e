"""Where a statement stopped making sense -> the one problem to report for it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from grammar.diagnostics.problem import Problem
from grammar.reading import bracket_mistakes, misnamed, misplaced, missing, misspelt, row_mistakes
from grammar.reading.parsing import Halt
from grammar.reading.statements import Passage
from grammar.reading.stop import Stop
from grammar.text import SourceText

Recognise = Callable[[Stop], Problem | None]

CAUSES: Final[tuple[Recognise, ...]] = (
    misspelt.unknown_keyword,
    misnamed.broken_name,
    misnamed.stage_with_hyphen,
    misnamed.capital_letter,
    misnamed.digit_first,
    bracket_mistakes.comma_in_brackets,
    misspelt.relation_after_is,
    misspelt.misspelt_relation,
    misspelt.other_words,
    misplaced.statement_inside,
    misplaced.stage_again,
    misplaced.inside_without_pair,
    missing.comma_too_many,
    bracket_mistakes.case_without_value,
    missing.condition_missing,
    missing.claim_missing,
    missing.value_missing,
    missing.unit_missing,
    bracket_mistakes.bracket_never_opened,
    bracket_mistakes.bracket_never_closed,
    misnamed.reserved_word,
    misnamed.name_missing,
    missing.inches_not_meant,
    misnamed.paragraph_without_quotes,
    row_mistakes.bar_at_end,
    row_mistakes.bar_at_start,
    row_mistakes.rows_missing,
    misspelt.misspelt_word,
    misspelt.misspelt_before,
    misspelt.needless_words,
    misnamed.label_without_quotes,
    misnamed.label_missing,
    misplaced.stage_afterwards,
    misplaced.second_relation,
    misplaced.clause_elsewhere,
    missing.between_without_and,
    missing.range_without_to,
    bracket_mistakes.case_without_condition,
    row_mistakes.bar_within,
    missing.kind_missing,
    missing.name_after_figure,
    missing.comma_before,
    missing.comma_missing,
    bracket_mistakes.brackets_missing,
    missing.word_missing,
    missing.figure_missing,
    missing.date_missing,
    missing.end_missing,
)
"""What can have gone wrong, the surest signs first."""


def mistake(halt: Halt, passage: Passage, source: SourceText) -> Problem:
    """The one problem at the place where reading had to stop."""
    stop = Stop.of(halt, passage, source)
    for cause in CAUSES:
        problem = cause(stop)
        if problem is not None:
            return problem
    return stop.problem("201")
