"""Trade functions: boards spread over a span, and a leg glued to an L. Lengths in mm."""

from __future__ import annotations

import math

from .model import Leg, Spread

SLACK = 1e-9                     # floating error that must not cost a board or turn a comparison
MOST_BOARDS = 1000


def spread(span: float, width: float, least_gap: float, most_gap: float, step: float = 0.0) -> Spread:
    """As many full-width boards as keep every gap at least ``least_gap``.

    n = floor((span + least) / (width + least)), gap = (span - n width) / (n - 1). When that gap is more
    than ``most_gap`` one board more is taken and all are ripped equally, to the working ``step`` where one
    is given; what the rounding leaves goes into the gaps. Raises ValueError in words.
    """
    if span <= 0 or width <= 0 or least_gap < 0 or most_gap < least_gap or step < 0:
        raise ValueError("spread wants span and width above 0 and 0 <= least gap <= most gap")
    if (span + least_gap) / (width + least_gap) > MOST_BOARDS:
        raise ValueError(f"spread wants more than {MOST_BOARDS} boards")
    if span <= width + SLACK:
        note = "" if span >= width - SLACK else "one board ripped to the span"
        return Spread(1, min(span, width), 0.0, note)
    count = math.floor((span + least_gap) / (width + least_gap) + SLACK)
    if count > 1 and (gap := (span - count * width) / (count - 1)) <= most_gap + SLACK:
        return Spread(count, width, max(gap, 0.0))
    return _ripped(span, count + 1, least_gap, step)


def _ripped(span: float, count: int, gap: float, step: float) -> Spread:
    width = (span - (count - 1) * gap) / count
    if step:
        width = math.floor(width / step + SLACK) * step
    if width <= 0:
        raise ValueError("spread finds no board width: the gaps fill the span")
    return Spread(count, width, (span - count * width) / (count - 1),
                  "every board ripped narrower, alike, to keep the gaps in range")


def l_leg(board_width: float, thickness: float, kerf: float, wide: float) -> Leg:
    """One board ripped once into ``wide`` and the rest, the rest glued edge to face.

    narrow = board - kerf - wide; the second face = narrow + thickness; square when
    wide = (board - kerf + thickness) / 2. Source: geometry. Raises ValueError in words.
    """
    narrow = board_width - kerf - wide
    if min(thickness, wide) <= 0 or kerf < 0 or narrow <= SLACK:
        raise ValueError("l_leg: the board is too narrow for this wide strip")
    return Leg(wide, narrow, narrow + thickness, (board_width - kerf + thickness) / 2)
