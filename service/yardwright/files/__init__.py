"""Adapters in: templates, price lists, limits, times and the shop's own folder, read from disk."""

from .shop import read_shop

__all__ = ["read_shop"]
