"""Wide glued panels: boards glued edge to edge move as one across their grain.

The whole width moves by the movement formulas (movement.py) from the moisture at build (as delivered, or as
the shop glues it at most) to the driest and dampest of the region (climate.py). A panel that something across
its grain holds by screws, nails or glue may want to move 1/8 in at most; beyond that it cups, splits or
shears its screws. Always runs, for glue-ups of kind edge. mm and percent.
Sources: Wood Handbook eq. 13-2 (seen), 13-3 and Table 13-1 (memory); the room allowed (judgement).
Limits of validity: flat-sawn strips that move alike; panels held by slots or buttons count as held where a
joint is.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.model import AskedCheck, Member
from .board_gaps import moisture_built
from .climate import service_range
from .movement import change_worked, width_change
from .rule import Case, Rule
from .touches import corners, dot

_ACROSS = 0.5


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One finding for each panel that something holds across its grain."""
    kinds = {g.name: g.kind for g in case.piece.glue_ups}
    panels: dict[tuple[str, int], list[Member]] = {}
    for m in case.piece.members:
        if kinds.get(m.glue_up) == "edge" and m.material == "board":
            panels.setdefault((m.glue_up, m.glue_up_no), []).append(m)
    found = {name: finding for (name, _), strips in panels.items()
             for finding in _judged(asked, case, name, strips)}
    return tuple(found.values())


def _judged(asked: AskedCheck, case: Case, name: str, strips: list[Member]) -> Iterator[Finding]:
    first, own = strips[0], {s.key for s in strips}
    holders = {t.other for s in strips for t in case.touches.get(s.key, ()) if t.held and t.other not in own
               and abs(dot(case.member(t.other).frame.along, first.frame.along)) < _ACROSS}
    if not holders:
        return
    reach = [dot(c, first.frame.wide) for s in strips for c in corners(s)]
    width, timber = max(reach) - min(reach), case.timber(first)
    built = min(moisture_built(case, first), case.limit("movement.glue_most"))
    low, high, source = service_range(case)
    swells = max(0.0, width_change(width, timber, built, high))
    shrinks = max(0.0, -width_change(width, timber, built, low))
    moves, room, words = max(swells, shrinks), case.limit("climate.panel_room"), case.words
    good = moves <= room
    yield Finding(
        asked.rule.rule, Level.OK if good else Level.CAUTION,
        f"{name}: free to move" if good else f"{name}: held across its grain",
        f"{words.length(width)} of {timber.name} glued at {built:g} % moisture, swelling "
        f"{words.fine(swells)} at {high:g} % and shrinking {words.fine(shrinks)} at {low:g} %; held by "
        f"{', '.join(sorted({case.member(k).name for k in holders}))}.",
        words.fine(moves), words.fine(room), f"{source}; {case.source('climate.panel_room')}",
        "" if good else "Hold it by slotted holes, buttons or one middle screw, or leave gaps between boards "
        "instead of glue.",
        f"swelling {change_worked(words, width, timber, built, high)}, shrinking "
        f"{change_worked(words, width, timber, built, low)}; {words.fine(moves)} "
        f"{'≤' if good else '>'} {words.fine(room)}", customer=not good)


RULE = Rule("glued panels", check)
