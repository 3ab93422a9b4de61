"""Hung on a wall: what its fixings must hold with its load at the front edge.

T = (W·a + P·e)/d on the upper fixings, half of them: a and e how far the weight and the load lie before the
wall, d nine tenths of the height of what lies against the wall, its lower edge bearing there. Besides each
takes its share of W + P downward; both together are held against the load that the goods list gives for one
(anchorage.py). P: somebody's 250 lbf at the front edge, or what a shelf or seat may be loaded with, at its
middle, where that turns it more. What the wall bears is never known here: always *not checked*. Always runs,
for pieces hung on a wall; its lower edge is no foot then, and nothing tips over it. Units N, mm.
Limits of validity: a flat wall along the whole back, fixings near its top and bottom. Source: moments
(geometry); 250 lbf (2010 ADA 903.6; seen); nine tenths (judgement).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..finding import Finding, Level
from ..piece import balanced
from ..piece.fixed import count_of
from ..piece.model import AskedCheck
from .anchorage import judged, load_source
from .held_up import is_hung, rests
from .rule import Case, Rule
from .soil_room import soil_of
from .touches import UP, reach
from .words import GRAVITY

LEVER = 0.9
AREA_LOADS = ("shelf", "table", "box")


@dataclass(frozen=True, slots=True)
class _Load:
    name: str
    force_n: float
    out_mm: float                # before the wall


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """What one fixing must hold, and that the wall is not known."""
    if not is_hung(case):
        return ()
    rule, against = asked.rule.rule, [m for m in case.piece.members if rests(case, m)]
    high = max((reach(m, UP)[1] for m in against), default=0.0) - min(
        (reach(m, UP)[0] for m in against), default=0.0)
    if count_of(case.piece) < 2 or high <= 0.0:
        return (_nothing(rule, case),)
    load = max(_loads(case), key=lambda found: found.force_n * found.out_mm)
    return (_pulled(rule, case, high, load), _wall(rule, load))


def _nothing(rule: str, case: Case) -> Finding:
    return Finding(
        rule, Level.STOP, "Nothing holds it to the wall",
        "It hangs on a wall, and the quote holds fewer than two anchors, or none of its boards lies against "
        "the wall.", f"{count_of(case.piece)} anchors", "2 at least", "geometry of the piece",
        "Give its template anchors as hardware, and let its back reach the wall.",
        "hardware of the kind anchor, or brackets and straps with words to = \"wall\"")


def _loads(case: Case) -> Iterator[_Load]:
    back, front = case.piece.closed.high[1], min(case.piece.closed.low[1], case.piece.opened.low[1])
    yield _Load("somebody at its front edge", case.limit("structure.seat_load"), back - front)
    for c in case.piece.checks:
        boards = [case.member(k) for k in c.members]
        if c.rule.rule == "shelf load" and boards:
            use = c.rule.words.get("use", AREA_LOADS[0])
            areas = [(m.length_mm * m.width_mm, m.centre[1]) for m in boards]
            force = case.limit(f"structure.{use}_load") * sum(a for a, _ in areas)
            middle = sum(a * y for a, y in areas) / sum(a for a, _ in areas)
            yield _Load(f"a full {use}", force, back - middle)
        elif c.rule.rule == "seat load" and boards:
            force = case.limit("structure.seat_line_load") * max(m.length_mm for m in boards)
            yield _Load("a full row of sitters", force, back - min(m.centre[1] for m in boards))


def _pulled(rule: str, case: Case, high: float, load: _Load) -> Finding:
    words, count, box = case.words, count_of(case.piece), case.piece.closed
    soil = soil_of(case)
    middle = (case.piece.centre[0], (box.low[1] + box.high[1]) / 2, case.piece.centre[2])
    mass, centre = balanced([(case.piece.mass_kg, case.piece.centre),
                             (soil.kg(case) if soil else 0.0, middle)])
    weight, out, lever = mass * GRAVITY, box.high[1] - centre[1], LEVER * high
    pull = (weight * out + load.force_n * load.out_mm) / lever
    down = (weight + load.force_n) / count
    each = pull / max(count // 2, 1) + down
    held = judged(case, each)
    return Finding(
        rule, held.level, "Its fixings hold it, where the wall does" if held.level is Level.OK else
        "Its fixings are not known to hold" if held.load_n is None else "Its fixings are too weak",
        f"With {load.name} ({words.force(load.force_n)}) {words.force(pull)} pull at its upper fixings, and "
        f"each of the {count} carries {words.force(down)} down besides. {held.said}",
        f"{words.force(each)} on each", "no load given" if held.load_n is None else
        f"{words.force(held.load_n)} each", "; ".join(filter(None, (
            case.source("structure.seat_load", "structure.anchor_unknown"), load_source(case)))),
        held.mend, f"T = (W·a + P·e)/d = ({words.force(weight)} × {words.length(out)} + "
        f"{words.force(load.force_n)} × {words.length(load.out_mm)}) / {words.length(lever)} = "
        f"{words.force(pull)} on {max(count // 2, 1)}; (W + P)/{count} = {words.force(down)}")


def _wall(rule: str, load: _Load) -> Finding:
    return Finding(
        rule, Level.NOT_CHECKED, "The wall it hangs on: not checked",
        f"Nobody said what the wall is made of, nor how the fixings sit in it; with {load.name} it must bear "
        "what they pull. Insulation, boards and loose render bear nothing.", source="the site",
        mend="Look at what is behind the face: masonry, concrete or studs; choose plugs or screws for it, "
        "and pull at one before anything is hung.")


RULE = Rule("hung on a wall", check)
