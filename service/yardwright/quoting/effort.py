"""How much may be tried for one quote: work counted by the members of a piece, never timed.

A unit is near half a millisecond of a common processor that others use too. Each kind of trial counts what
it took, on the average, for pieces of all templates in both shops (tests/bench/mends.py).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..domain.piece.model import Piece

PLACED, FIGURES = 1, 2       # its outline in the measured place; its values without a member
SLOW = frozenset({"joints"})


def built(members: int) -> int:
    """A piece built."""
    return 10 + members // 3


def carried(places: int) -> int:
    """A piece carried through so many narrow places, in parts where the whole does not pass."""
    return 60 * places


def one_check(members: int, rule: str) -> int:
    """One check of a built piece."""
    return 2 * members if rule in SLOW else members // 5


def every_check(members: int) -> int:
    """All its checks."""
    return 60 + 4 * members


def priced(members: int) -> int:
    """Parts, boards, hours and price of a whole job with so many members."""
    return 20 + 2 * members


def whole_quote(pieces: Iterable[Piece]) -> int:
    """What the quote itself took."""
    counts = [len(piece.members) for piece in pieces]
    return sum(built(n) + every_check(n) for n in counts) + priced(sum(counts))


@dataclass(slots=True)
class Effort:
    """What may still be done; ``stopped`` when something was not because it ran out."""

    work: int
    stopped: bool = False
    kept: int = 0                # for the findings that come after

    def begin(self, findings: int, least: int = 0) -> None:
        """The next of so many findings may use its share of the work left, but ``least`` if it can."""
        share = max(self.work // max(findings, 1), min(least, self.work))
        self.kept, self.stopped = self.work - share, False

    def spend(self, work: int) -> bool:
        """Whether so much may be done; then it counts."""
        if self.work - self.kept < work:
            self.stopped = True
            return False
        self.work -= work
        return True
