"""The grammar, the words for it and the builders hold together."""

import logging
from importlib import resources

import pytest
from lark import Lark, logger

from grammar.checking import vocabulary
from grammar.reading.bracket_mistakes import FUNCTIONS
from grammar.reading.building import RULES
from grammar.reading.misplaced import CLAUSES_OF
from grammar.reading.parsing import SOFT_WORDS, grammar, reserved_words, wanted_after, words
from grammar.reading.statements import CLAUSE_WORDS
from grammar.reading.stop import STATEMENT_WORDS
from grammar.reading.wording import listed, word_for


def states() -> list[frozenset[str]]:
    """What can stand next, for every state that reading a statement can be in."""
    table = grammar().parser.parser._parse_table.states
    found = {frozenset(name for name in actions if name.isupper() or name == "$END") for actions in table.values()}
    return sorted((one for one in found if one), key=sorted)


def test_every_state_of_reading_has_words_for_what_can_stand_next() -> None:
    assert len(states()) > 50
    for wanted in states():
        said = listed(wanted)
        assert said
        assert all(word not in said for word in ("_", "$", "ANON"))


def test_every_kind_of_word_has_its_own_words() -> None:
    names = [terminal.name for terminal in grammar().terminals if terminal.name not in {"COMMENT", "SPACE"}]
    said = [word_for(name) for name in names]
    assert len(set(said)) == len(said)
    with pytest.raises(KeyError):
        word_for("NO_SUCH_WORD")


def test_every_rule_has_its_builder_and_every_builder_its_rule() -> None:
    rules = {rule.alias or rule.origin.name for rule in grammar().rules if not rule.options.expand1 or rule.alias}
    assert {str(name) for name in rules if not str(name).startswith("_")} == set(RULES)


def test_the_keywords_of_statements_are_those_of_the_grammar() -> None:
    assert wanted_after(()) == {word.upper() for word in STATEMENT_WORDS}


def test_each_clause_is_told_to_belong_where_the_grammar_has_it() -> None:
    homes: dict[str, set[str]] = {}
    rules = {rule.origin.name: set() for rule in grammar().rules}
    for rule in grammar().rules:
        rules[rule.origin.name] |= {symbol.name for symbol in rule.expansion}
    opening = {
        name: rule.expansion[0].name for rule in grammar().rules for name in [rule.origin.name] if rule.expansion
    }
    for statement in STATEMENT_WORDS:
        below = set(rules[statement])
        for helper in [name for name in below if name.startswith("__")]:
            below |= rules[helper]
        for clause in below & opening.keys():
            if opening[clause] in CLAUSES_OF:
                homes.setdefault(opening[clause], set()).add(statement)
    assert {clause: set(names.split()) for clause, names in CLAUSES_OF.items()} == homes


def test_the_functions_are_those_that_checking_knows() -> None:
    assert set(FUNCTIONS) == set(vocabulary.FUNCTIONS)


def test_no_word_both_begins_a_statement_and_a_further_line_at_the_margin() -> None:
    assert not CLAUSE_WORDS & set(STATEMENT_WORDS)
    assert words() >= CLAUSE_WORDS


def test_reserved_words_are_the_languages_words_but_a_few() -> None:
    assert words() >= SOFT_WORDS
    assert reserved_words() == words() - SOFT_WORDS
    assert "when" in reserved_words()
    assert "fuel" not in reserved_words()


def test_the_grammar_has_one_known_conflict(caplog: pytest.LogCaptureFixture) -> None:
    """Inches: behind a number, ``in`` is its unit and begins no clause."""
    logger.addHandler(caplog.handler)
    level = logger.level
    logger.setLevel(logging.DEBUG)
    try:
        text = resources.files("grammar").joinpath("sheet.lark").read_text(encoding="utf-8")
        Lark(text, parser="lalr", start="statement", debug=True, maybe_placeholders=False)
    finally:
        logger.setLevel(level)
        logger.removeHandler(caplog.handler)
    conflicts = [record.getMessage() for record in caplog.records if "conflict" in record.getMessage().lower()]
    assert conflicts
    assert all("IN" in conflict.split("terminal ")[1].split()[0] for conflict in conflicts)
