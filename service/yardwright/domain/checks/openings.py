"""Openings: where a small child's head, and where children use the piece a finger, goes in and is held.

Closed openings are found in the solids (holes.py): under an arm, between slats, between a seat and a rail. A
head is trapped where a square of 89 to 230 mm (3.5-9 in) goes in: where children use the piece a stop from
600 mm above the ground, where feet no longer reach it, else a caution; for others a note to the shop. Fingers
of children are trapped in 8-25 mm: a caution. The open top of a box of soil is none: the soil closes it.
Always runs; a piece of very many members that children use is *not checked*. Lengths in mm.
Limits of validity: as holes.py; neck traps in the form of a V are not judged.
Sources: ASTM F1487, EN 1176-1, EN 581-1 (memory) through data/limits/table.toml.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .footprint import bounds
from .holes import Opening, Probe, TooMany, openings
from .rule import Case, Rule, Unknown

HEAD_SLAB_MM, HEAD_DEEP_MM = 60.0, 150.0         # boards this near to one plane close an opening; judgement
FINGER_SLAB_MM, FINGER_DEEP_MM = 10.0, 10.0


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A finding on the opening that traps a head most gravely, one on fingers; nothing where none does."""
    child = any("child" in (str(c.values.get("users") or ""), c.rule.words.get("users", ""))
                for c in case.piece.checks)
    try:
        return tuple(_found(asked, case, child))
    except TooMany:
        if child:
            raise Unknown("the piece has too many members to look for openings among them") from None
        return ()


def _found(asked: AskedCheck, case: Case, child: bool) -> Iterator[Finding]:
    heads = [o for o in openings(case.piece.members, _probe(case, "head", HEAD_SLAB_MM, HEAD_DEEP_MM))
             if not _on_soil(case, o)]
    if heads:
        yield _head(asked, case, max(heads, key=lambda o: o.low_mm), child)
    fingers = list(openings(case.piece.members, _probe(case, "finger", FINGER_SLAB_MM, FINGER_DEEP_MM))
                   ) if child else []
    if fingers:
        yield _told(asked, case, fingers[0], "finger", Level.CAUTION,
                    "A child's fingers can be trapped", "")


def _on_soil(case: Case, opening: Opening) -> bool:
    """Whether it is looked into from above between boards that hold soil, or a rim on them."""
    pressed = [case.member(k) for c in case.piece.checks if c.rule.rule == "soil sides" for k in c.members]
    if opening.plan is None or not pressed:
        return False
    x0, y0, _, x1, y1, top = bounds(pressed)
    return x0 < opening.plan[0] < x1 and y0 < opening.plan[1] < y1 and opening.low_mm <= top + HEAD_SLAB_MM


def _probe(case: Case, name: str, slab_mm: float, deep_mm: float) -> Probe:
    return Probe(case.limit(f"table.{name}.low"), case.limit(f"table.{name}.high"), slab_mm, deep_mm)


def _head(asked: AskedCheck, case: Case, opening: Opening, child: bool) -> Finding:
    high = case.limit("table.head.hangs_from")
    hangs = opening.low_mm >= high
    level = Level.NOTE if not child else Level.STOP if hangs else Level.CAUTION
    title = "A child's head can be trapped" if child else "A small child's head goes into an opening"
    told = "" if not child else f" Its lower edge is {case.words.length(opening.low_mm)} up" + (
        ": feet do not reach the ground." if hangs else ".")
    return _told(asked, case, opening, "head", level, title, told)


def _told(asked: AskedCheck, case: Case, opening: Opening, name: str, level: Level, title: str,
          more: str) -> Finding:
    words = case.words
    low, high = case.limit(f"table.{name}.low"), case.limit(f"table.{name}.high")
    among = ", ".join(opening.beside[:4]) or "its members"
    return Finding(
        asked.rule.rule, level, title,
        f"Among {among} a square of {words.length(opening.wide_mm)} goes in.{more}",
        words.length(opening.wide_mm), f"{words.length(low)} at most, or {words.length(high)} at least",
        case.source(f"table.{name}.low", f"table.{name}.high"),
        f"Make it {words.length(low)} or less, or {words.length(high)} or more." if level is not Level.NOTE
        else "Keep small children from it, or close it.",
        f"{words.length(low)} < {words.length(opening.wide_mm)} < {words.length(high)}, from the solids",
        customer=level is not Level.NOTE)


RULE = Rule("openings", check)
