"""What of the ground a piece stands over: its plan, and what bounds parts of it. mm, mm².

The plan is measured in strips: each strip of the length reaches from the foremost to the rearmost member in
it, and so along the depth; the smaller of the two sums is taken, so that the inner corner of an L does not
count and the gaps between boards do. Geometry, members by the boxes around them: on the large side for what
is sloped, on the small side for what is open both ways.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from ..piece.model import Member
from .touches import corners

# (low x, low y, low z, high x, high y, high z)
Bounds = tuple[float, float, float, float, float, float]


def bounds(members: Iterable[Member]) -> Bounds:
    """The box around members."""
    at = [c for m in members for c in corners(m)]
    (x0, y0, z0), (x1, y1, z1) = (tuple(pick(c[k] for c in at) for k in range(3)) for pick in (min, max))
    return x0, y0, z0, x1, y1, z1


def footprint_mm2(members: Iterable[Member]) -> float:
    """The plan of members, gaps between them counted, inner corners not."""
    boxes = [bounds([m]) for m in members]
    return min(_strips(boxes, 0), _strips(boxes, 1)) if boxes else 0.0


def _strips(boxes: Sequence[Bounds], k: int) -> float:
    other, area = 1 - k, 0.0
    for low, high in pairwise(sorted({edge for b in boxes for edge in (b[k], b[k + 3])})):
        among = [b for b in boxes if b[k] < high and b[k + 3] > low]
        if among:
            area += (high - low) * (max(b[other + 3] for b in among) - min(b[other] for b in among))
    return area
