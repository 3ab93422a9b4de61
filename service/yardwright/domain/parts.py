"""Parts: the cut list of all items of a job together, with marks, hands, rough and finished size."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Part:
    """One line of the cut list. Finished lengths are rounded once, to the shop's working step."""

    mark: str                    # "A1": item letter and number
    name: str
    item: int                    # index of the item in the job
    count: int                   # for all pieces of the item
    hand: str                    # "" | "left" | "right"
    material: str                # "board" | "sheet" | "roll"
    timber: str
    section: str
    grade: str
    length_nm: int               # finished, long point to long point
    width_nm: int
    thickness_nm: int
    rough_length_nm: int         # as first cut: finished plus the shop's allowance where shape work needs it
    full_width: bool             # used at the section's full width, not ripped
    made_of: str                 # glue-up it goes into, "" = none
    glue_up_kind: str
    grain: str
    shape: tuple[str, ...]       # shape work in words
    notes: tuple[str, ...]
    keys: tuple[str, ...]        # member keys of one piece that this line stands for
