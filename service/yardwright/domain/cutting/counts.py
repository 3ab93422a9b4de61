"""Counts of parts by size, packed in one whole number so that adding and comparing patterns is one step.

Each size has a field wide enough for twice its need, its top bit kept as a guard: a guard bit that shows
after adding the slack means that more of a size is there than can be of use.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Packing:
    """How counts up to ``most`` lie in one number."""

    most: tuple[int, ...]
    shifts: tuple[int, ...]
    guards: int
    slack: int

    def one(self, size: int) -> int:
        """A single part of this size."""
        return 1 << self.shifts[size]

    def fits(self, packed: int) -> bool:
        """Whether no size is over its need. Holds for the sum of two that fit."""
        return not (packed + self.slack) & self.guards

    def together(self, one: int, other: int) -> int:
        """Both, no size beyond its need."""
        if self.fits(one + other):
            return one + other
        return sum(
            min(n, most) << shift
            for n, most, shift in zip(self.unpack(one + other), self.most, self.shifts, strict=True)
        )

    def within(self, small: int, large: int) -> bool:
        """Whether ``small`` has no more of any size than ``large``."""
        return ((large | self.guards) - small) & self.guards == self.guards

    def unpack(self, packed: int) -> tuple[int, ...]:
        """The counts by size."""
        return tuple(
            packed >> shift & ((1 << (most.bit_length() + 1)) - 1)
            for shift, most in zip(self.shifts, self.most, strict=True)
        )


def packing(most: Sequence[int]) -> Packing:
    """Fields for counts up to ``most`` by size."""
    shifts, guards, slack, at = [], 0, 0, 0
    for count in most:
        bits = count.bit_length()
        shifts.append(at)
        guards |= 1 << (at + bits)
        slack |= ((1 << bits) - 1 - count) << at
        at += bits + 1
    return Packing(tuple(most), tuple(shifts), guards, slack)
