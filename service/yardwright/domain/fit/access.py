"""Whether the piece, whole, can be carried in."""

from __future__ import annotations

import math

from ..finding import Finding, Level
from ..measure import INCH, Writer
from ..site import Access
from .model import Envelope

ROOM_NM = 2 * INCH               # beyond the piece's own size; on-site checklist of safe data, memory
RULE = "way in"
SOURCE = "gate at least the piece's least size + 2 in; common practice, memory"


def passes(piece: Envelope, access: Access) -> bool:
    """Carried end first: the two smaller sizes through the opening, each with 2 in to spare.

    Round a turn between two passages of one width w the longest that goes flat is 2 sqrt(2) w - 2 a for
    a piece a wide (geometry); what is longer may go on end where the height allows. A height that was
    not measured is taken as open above, but nothing is stood on end there.
    """
    small, middle, long = sorted((piece.length_nm, piece.depth_nm, piece.height_nm))
    wide, high = access.width_nm - ROOM_NM, access.height_nm
    room = math.inf if high is None else high - ROOM_NM
    if access.kind != "turn":
        return (small <= wide and middle <= room) or (middle <= wide and small <= room)
    return any(across <= wide and up <= room and along <= 2 * math.sqrt(2) * wide - 2 * across
               for across, up, along in ((small, middle, long), (middle, small, long), (small, long, middle))
               if up != long or high is not None)


def way_in(piece: Envelope, access: tuple[Access, ...], writer: Writer) -> tuple[Finding, ...]:
    """One finding for each narrow place; a caution where the whole piece does not pass."""
    return tuple(_finding(piece, a, writer) for a in access)


def _finding(piece: Envelope, access: Access, writer: Writer) -> Finding:
    small, middle, long = sorted((piece.length_nm, piece.depth_nm, piece.height_nm))
    size = " x ".join(writer.length(nm) for nm in (small, middle, long))
    opening = writer.length(access.width_nm) + " wide" + (
        f", {writer.length(access.height_nm)} high" if access.height_nm is not None else "")
    if passes(piece, access):
        return Finding(RULE, Level.OK, "It can be carried in",
                       f"The whole piece passes the {access.kind}.", size, opening, SOURCE)
    return Finding(
        RULE, Level.CAUTION, "It may not go through whole",
        f"The piece is {size}; the {access.kind} is {opening}, and {writer.length(ROOM_NM)} more than the "
        "piece is wanted.",
        size, opening, SOURCE, "Deliver it in parts and put it together on site, or find another way in.")
