"""The catalogue of problems: stable codes, and words that an officer understands."""

import re

import pytest

from grammar.diagnostics.catalogue import CATALOGUE
from grammar.diagnostics.entry import Entry
from grammar.diagnostics.examples import EXAMPLES
from grammar.diagnostics.meaning import MEANING
from grammar.diagnostics.writing import WRITING

NEVER = re.compile(
    r"\b(?:(?i:token|pars(?:e|er|ed|ing)|syntax|expressions?|types?|null|boolean|float|exception|identifier|illegal"
    r"|invalid|unexpected)|None)\b"
)
"""None is the programmer's word; "none" is English."""

ENTRIES = list(CATALOGUE.values())


def said(entry: Entry) -> str:
    return f"{entry.title} {entry.says} {entry.remedy}"


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.code)
def test_a_message_has_none_of_the_words_of_programmers(entry: Entry) -> None:
    assert NEVER.findall(said(entry)) == []


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.code)
def test_a_message_is_made_of_sentences(entry: Entry) -> None:
    assert re.fullmatch(r"\d{3}", entry.code)
    assert entry.title[0].isupper()
    assert not entry.title.endswith(".")
    assert entry.says.strip() == entry.says
    assert entry.remedy


def test_no_code_is_given_twice() -> None:
    codes = [entry.code for entry in (*WRITING, *MEANING, *EXAMPLES)]
    assert sorted(codes) == sorted(set(codes))
    assert len(CATALOGUE) == len(codes)
