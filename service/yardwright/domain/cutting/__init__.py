"""Cutting: which stock to buy and how each board, sheet and roll is cut."""

from .plan import plan

__all__ = ["plan"]
