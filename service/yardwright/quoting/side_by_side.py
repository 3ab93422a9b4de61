"""Several pieces in one measured space: each is tried there alone, so what they leave one another is said.

Along the back wall their lengths are added and held against its shortest reading: longer is a caution.
Whether they fit among things on the wall, corners and one another's depths is not worked out: not checked.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..domain.finding import Finding, Level
from ..domain.job import Job
from ..domain.measure import Writer
from ..domain.piece.model import Piece


def together(job: Job, counted: Sequence[tuple[Piece, int]]) -> Iterator[Finding]:
    """One finding for a job of several pieces in a place with a back wall that was measured."""
    wall = job.site.wall("back")
    pieces = sum(quantity for _, quantity in counted)
    if pieces < 2 or job.site.kind == "open" or wall is None or not wall.readings:
        return
    write = Writer(job.units)
    total_mm = sum(piece.standing_mm[0] * quantity for piece, quantity in counted)
    shortest_nm = min(reading.value_nm for reading in wall.readings)
    along, run = write.mm(total_mm), write.length(shortest_nm)
    worked = " + ".join(f"{quantity} × {write.mm(piece.standing_mm[0])}" for piece, quantity in counted)
    worked += f" = {along} against the shortest reading {run}"
    detail = (f"Each of the {pieces} pieces was tried in this space alone. Side by side they are {along} "
              f"long; the back wall is {run}.")
    if total_mm * 1e6 > shortest_nm:
        yield Finding("side by side", Level.CAUTION, "They do not all stand along the back wall", detail,
                      along, run, "lengths of the pieces, readings of the back wall",
                      "Draw where each is to stand, and measure each place.", worked)
    else:
        yield Finding("side by side", Level.NOT_CHECKED, "Side by side: not checked", detail, along, run,
                      "lengths of the pieces, readings of the back wall",
                      "Lay them out with a tape: things on the wall, corners and depths count too.", worked)
