"""A whole sheet into code: one function for the verdicts and one for every value on the way."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import cast

from engine.evaluation.compiling.burning import Drawing, tuple_of
from engine.evaluation.compiling.comparing import joined
from engine.evaluation.compiling.data import Data
from engine.evaluation.compiling.forms import ONE, Form, named
from engine.evaluation.compiling.layout import (
    ASK_THE_SWEEP,
    Chosen,
    Divided,
    Known,
    Layout,
    MovingLayout,
    Piece,
    Scaled,
    Settled,
    SideLayout,
    SlotLayout,
    Unused,
)
from engine.evaluation.compiling.moving import Moving, MovingWriter, Written, moving_limit
from engine.evaluation.compiling.nodes import translate
from engine.evaluation.compiling.scales import steps
from engine.evaluation.compiling.translation import KNOWN, Test, Translation
from engine.evaluation.compiling.writer import STANDS, BeyondCompiling, Writer
from engine.evaluation.exact import Plan
from engine.evaluation.workings import Node
from grammar.sheet import Input, Limit, Numeric, Option, Read, Sheet, Stage, Stated, children
