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
    """Limits of one search.

    ``rows``: of the table of patterns; ``regions``: of purchases opened; ``covers``: steps of deciding
    whether boards are enough (``cover`` for one purchase, then ``nodes`` of a whole-number program);
    ``columns``: rounds of pricing where the table is too large; ``mends``: small groups of boards cut anew.
    """

    rows: int
    regions: int
    covers: int
    columns: int
    cover: int = 50
    nodes: int = 30
    mends: int = 30


EFFORT = {
    "quick": Effort(rows=20_000, regions=40, covers=500, columns=60, cover=60, nodes=0, mends=5),
    "normal": Effort(rows=150_000, regions=400, covers=4_000, columns=200),
    "thorough": Effort(
        rows=400_000, regions=20_000, covers=100_000, columns=1_000, cover=5_000, nodes=5_000, mends=500
    ),
}
