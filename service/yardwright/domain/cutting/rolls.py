"""Rolls."""
from __future__ import annotations
from collections.abc import Sequence
from .model import CutRules, CuttingPlan, NeededPart, StockLine
def plan_rolls(parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules) -> CuttingPlan:
    raise NotImplementedError
