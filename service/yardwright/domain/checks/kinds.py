"""What kind of piece a tip over may take it for: a chair has a seat, a planter has soil to stand by.

A chair is forgiven that it falls over empty, a planter is weighed filled. Each is believed only of a piece
whose solids agree: a chair has a seat for one or two and is 5 ft high at most, a planter has soil that its
boards hold, no more of it than they have room for. Source: geometry; the bounds of a chair are judgement.
"""

from __future__ import annotations

from dataclasses import replace

from ..piece.model import AskedCheck
from .rule import Case, Declared
from .seats import seats
from .soil_room import room_mm3

_CHAIR_SITS = 2
_CHAIR_HIGH_MM = 1524.0      # 5 ft
_ROOMY = 1.05                # what is heaped, and what lies between boards


def believed(asked: AskedCheck, case: Case) -> tuple[AskedCheck, tuple[Declared, ...]]:
    """The tip over as the kind of piece that the solids show, and what the template says instead."""
    kind = asked.rule.words.get("kind", "")
    if kind == "chair" and not _chair(case):
        return _plain(asked), (Declared("tip over", "its being a chair", "a chair",
                                        "no seat for one or two within 5 ft of height"),)
    if kind != "planter":
        return asked, ()
    if not any(c.rule.rule in ("soil sides", "soil floor") for c in case.piece.checks):
        return _plain(asked), (Declared("tip over", "its being a planter", "a planter",
                                        "no soil that boards are held against"),)
    said, room = float(asked.values.get("soil_volume") or 0.0), room_mm3(case)
    if room is None or said <= _ROOMY * room:
        return asked, ()
    words = case.words
    return (replace(asked, values={**asked.values, "soil_volume": room}),
            (Declared("tip over", "the soil it holds", words.volume(said), words.volume(room)),))


def _chair(case: Case) -> bool:
    people = sum(seat.people(case.limit("structure.people_pitch")) for seat in seats(case))
    return 0 < people <= _CHAIR_SITS and case.piece.standing_mm[2] <= _CHAIR_HIGH_MM


def _plain(asked: AskedCheck) -> AskedCheck:
    """The tip over of any piece."""
    words = {name: word for name, word in asked.rule.words.items() if name != "kind"}
    return replace(asked, rule=replace(asked.rule, words=words))
