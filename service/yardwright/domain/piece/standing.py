"""Does the piece stand on the ground, z = 0, and does every leg of it reach as far down as the lowest? mm.

A piece may stand off the ground on bought feet (hardware of the kind ``foot``), 2 in at most, or hang on a
wall where its template says so; fixed alone it does not hang. A leg is a member whose grain runs up rather
than across. Limits: a board that ends more than half an inch above the rest is taken to do so on purpose.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..errors import Fault
from ..measure import Writer
from ..template.stands import ON_GROUND, ON_WALL
from .model import Piece

SLACK_MM = 0.02
SHORT_MM = 12.7
FEET_MM = 50.8           # bought pads, glides and levelling feet are rarely higher; judgement
UPRIGHT = 0.7            # of the grain's direction, along the height


def standing_faults(piece: Piece, say: Writer) -> Iterator[Fault]:
    """A piece that floats, and legs that end a little above the ground on which others stand."""
    wheres = {rule.name: rule.where for rule in piece.template.members}
    lows = {m.key: min(corner[2] for corner in m.corners) for m in piece.members}
    low = piece.closed.low[2]
    if in_the_air_mm(piece):
        first = min(piece.members, key=lambda m: lows[m.key])
        yield Fault(wheres[first.name], f"{first.key} is the lowest and ends {say.fine(low)} above the "
                                        "ground, z = 0: let it reach down, or name the feet under it as "
                                        "hardware of the kind foot, or say that it stands "
                                        '"hung on a wall"')
    for m in piece.members if piece.template.stands == ON_GROUND else ():
        above = lows[m.key] - low
        if abs(m.frame.along[2]) > UPRIGHT and SLACK_MM < above < SHORT_MM:
            yield Fault(wheres[m.name], f"{m.key} ends {say.fine(above)} above what the piece stands on: let "
                                        f"it reach down as far, or clear that by {say.fine(SHORT_MM)}")


def in_the_air_mm(piece: Piece) -> float:
    """How far the lowest member ends above the ground; 0 where the piece stands there, on feet, or hangs."""
    on_feet = any("foot" in fitted.kind and fitted.count > 0 for fitted in piece.hardware)
    low, near = piece.closed.low[2], FEET_MM if on_feet else SLACK_MM
    return low if low > near and piece.template.stands != ON_WALL else 0.0
