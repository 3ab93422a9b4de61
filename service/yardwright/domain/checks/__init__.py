"""Checks: one rule a file; each gives findings with measured, limit, source and what would mend it.

A template names the rules that suit it; some always run. A rule that lacks a figure says *not checked*, never
*ok*. The error feared most is to call an unsafe or unbuildable piece fine.
"""

from __future__ import annotations

from .catalogue import ALWAYS, RULES, validate, with_known_checks
from .rule import Case, Rule, Unknown
from .running import run

__all__ = ["ALWAYS", "RULES", "Case", "Rule", "Unknown", "run", "validate", "with_known_checks"]
