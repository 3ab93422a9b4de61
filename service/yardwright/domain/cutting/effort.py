"""How much work a plan may cost, in countable steps, so that every worker gives the same answer."""

from __future__ import annotations

from dataclasses import dataclass


class Steps:
    """A purse of steps: ``take`` one, until none is left."""

    __slots__ = ("left", "out")

    def __init__(self, limit: int) -> None:
        self.left = limit
        self.out = False

    def take(self, number: int = 1) -> bool:
        """True when ``number`` steps were there to spend."""
        if self.left < number:
            self.out = True
            return False
        self.left -= number
        return True


@dataclass(frozen=True, slots=True)
class Effort:
    """Limits of one search. ``patterns``: steps of listing them; ``nodes``: of the whole-number program."""

    patterns: int
    columns: int
    nodes: int
    rounds: int


EFFORT = {
    "quick": Effort(patterns=4_000, columns=400, nodes=200, rounds=60),
    "normal": Effort(patterns=30_000, columns=3_000, nodes=2_000, rounds=200),
    "thorough": Effort(patterns=400_000, columns=20_000, nodes=50_000, rounds=1_000),
}
