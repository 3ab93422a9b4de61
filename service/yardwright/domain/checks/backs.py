"""Boards that people lean back on, as the solids tell: a back is found though no back load names it. mm.

Boards with a face that looks at a seat, upright or leaning up to 35 degrees, behind its middle across its
shorter way (a square seat: behind it), beside its length, 6 in or more above it. Posts that stand on the
ground carry a back and are none, nor are arms and boards that other loads name. Source: geometry; the bounds
are judgement.
Limits of validity: one sits facing the front of the piece, or off to its sides.
"""

from __future__ import annotations

from collections.abc import Collection
from math import hypot

from ..piece.model import Member
from .back_load import backward
from .footprint import Bounds, bounds
from .rule import Case
from .seats import Seat
from .touches import UP, reach

_LEANS = 0.574               # sine of 35 degrees
_ABOVE_MM = 152.4            # 6 in: what is lower stops a cushion
_LEANT_MM = 609.6            # 24 in: nobody's back is higher above the seat
_BOARD = 3.0                 # widths to a thickness: what is less and stands on the ground is a post
_WAY = 0.8                   # cosine: it looks along the seat's shorter way
_SQUARE = 0.8                # a seat this deep for its length is sat on from the front


def back_of(case: Case, seat: Seat, top_mm: float, known: Collection[str]) -> tuple[Member, ...]:
    """The boards behind a seat whose upper face reaches ``top_mm`` in the piece's own heights."""
    over, k = bounds(seat.members), _deep(bounds(seat.members))
    return tuple(m for m in case.piece.members if m.key not in known and m.material == "board"
                 and m not in seat.members and _leant_on(case, m, over, k, top_mm))


def _deep(seat: Bounds) -> int:
    """The axis across a seat."""
    x, y = seat[3] - seat[0], seat[4] - seat[1]
    return 1 if x >= _SQUARE * y else 0


def _leant_on(case: Case, m: Member, seat: Bounds, k: int, top_mm: float) -> bool:
    low, high = reach(m, UP)
    if (abs(m.frame.thick[2]) > _LEANS or high < top_mm + _ABOVE_MM or low > top_mm + _LEANT_MM
            or (low <= case.standing_mm and m.width_mm < _BOARD * m.thickness_mm)):
        return False
    way, b, along = backward(case, m), bounds([m]), 1 - k
    ahead = way[k] / max(hypot(way[0], way[1]), 1e-9)
    behind = ((b[k] + b[k + 3]) - (seat[k] + seat[k + 3])) / 2
    return (abs(ahead) > _WAY and behind * ahead > 0.0
            and abs(behind) > (seat[k + 3] - seat[k]) / 4
            and b[along] < seat[along + 3] and seat[along] < b[along + 3])
