"""Cutting: which stock to buy and how each board, sheet and roll is cut."""

from .groups import cut_rules, plan_job
from .plan import plan
from .set_ups import SetUp, set_ups

__all__ = ["SetUp", "cut_rules", "plan", "plan_job", "set_ups"]
