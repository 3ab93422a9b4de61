"""Cutting: which stock to buy and how each board, sheet and roll is cut."""

from .feasible import uncuttable
from .groups import cut_rules, plan_job
from .plan import plan
from .random_width import estimate_findings
from .set_ups import SetUp, set_ups

__all__ = ["SetUp", "cut_rules", "estimate_findings", "plan", "plan_job", "set_ups", "uncuttable"]
