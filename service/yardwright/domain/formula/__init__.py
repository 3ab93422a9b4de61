"""Formulas in templates: arithmetic on declared names and a short list of trade functions, nothing else.

``read`` checks text against the declared names' kinds and gives a tree of plain lists (it travels as
JSON to the phone); ``evaluate`` works a tree out. Lengths are floats in mm, areas mm2, angles degrees.
pwa/logic/formula.js evaluates the same trees; both pass tests/vectors/formulas.json.
"""

from .evaluate import Budget, Spent, evaluate
from .kinds import CONSTANTS
from .model import RECORDS, Formula, Leg, Spread, Value
from .nearest import nearest
from .reader import MOST_CHARS, MOST_DEEP, MOST_NODES, read
from .trade import l_leg, spread

__all__ = [
    "CONSTANTS", "MOST_CHARS", "MOST_DEEP", "MOST_NODES", "RECORDS", "Budget", "Formula", "Leg", "Spent",
    "Spread", "Value", "evaluate", "l_leg", "nearest", "read", "spread",
]
