"""Sheets."""
from __future__ import annotations
from collections.abc import Sequence
from .effort import Effort
from .model import CutRules, CuttingPlan, NeededPart, StockLine
def plan_sheets(parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules, effort: Effort) -> CuttingPlan:
    raise NotImplementedError
