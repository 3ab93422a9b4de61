"""Cutting: which stock to buy and how each board, sheet and roll is cut."""

from .groups import cut_rules, plan_job
from .plan import plan

__all__ = ["cut_rules", "plan", "plan_job"]
