"""Gaps between boards: wide enough to drain and swell, narrow enough for what lies on or behind them.

Bounds by use (seat, floor, side) from data/limits/movement.toml. Movement: from the moisture the boards are
built at to the driest and dampest they will see outdoors (movement.py). Swelling that closes the gap is a
caution; shrinking past the greatest gap a note. Lengths in mm, moisture in %.
Limits of validity: flat-sawn boards of one width; single boards scatter widely, cupping is not judged.
Sources: Wood Handbook eq. 13-2 (seen), 13-3 (memory), data/limits/movement.toml.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.model import AskedCheck, Member
from .climate import service_range
from .movement import change_worked, width_change
from .rule import Case, Rule

USES = ("seat", "floor", "side")
STEP_MM = 0.05               # a gap this near its bound is at it


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """The gap as built, then what it becomes."""
    use = asked.rule.words.get("use", "seat")
    gap = float(asked.values["gap"])
    boards = [case.member(k) for k in asked.members]
    return (*_as_built(asked, case, use, gap), *_in_service(asked, case, use, gap, boards))


def _as_built(asked: AskedCheck, case: Case, use: str, gap: float) -> Iterator[Finding]:
    words, name = case.words, f"movement.{use}_gap"
    least, most = case.limit(f"{name}.least"), case.limit(f"{name}.most")
    good = least - STEP_MM <= gap <= most + STEP_MM
    yield Finding(
        asked.rule.rule, Level.OK if good else Level.CAUTION,
        f"Gaps of the {use}: " + ("fine" if good else "narrow" if gap < least else "wide"),
        f"The boards lie {words.length(gap)} apart.", words.length(gap),
        f"{words.length(least)} to {words.length(most)}", case.source(f"{name}.least", f"{name}.most"),
        "" if good else "Change the width a little so that other boards or gaps come out.",
        f"gap as the boards come out over the width: {words.held(gap, least, most, STEP_MM)}")
    low = case.limit("movement.seat_gap.child_trap_low")
    high = case.limit("movement.seat_gap.child_trap_high")
    if use == "seat" and str(asked.values.get("users") or "") == "child" and low < gap < high:
        yield Finding(asked.rule.rule, Level.CAUTION, "Gaps of the seat: a child's fingers can be trapped",
                      f"Gaps between {words.length(low)} and {words.length(high)} take a finger and hold it.",
                      words.length(gap), f"under {words.length(low)}",
                      case.source("movement.seat_gap.child_trap_low"), "Set the boards closer.",
                      f"{words.length(low)} < {words.length(gap)} < {words.length(high)}")


def moisture_built(case: Case, member: Member) -> float:
    """The moisture (%) the boards come with: the timber's own when the section is sold wet or green."""
    sold = {b.moisture for b in case.shop.market.boards
            if b.section.id == member.section and b.timber == member.timber
            and (not member.grade or b.grade == member.grade)}
    timber = case.timber(member)
    if sold & {"wet", "green"}:
        return min(timber.wet_as_delivered_pct, case.limit("movement.green_from"))
    return min(timber.wet_as_delivered_pct, case.limit("movement.dry_as_delivered"))


def _in_service(asked: AskedCheck, case: Case, use: str, gap: float,
                boards: list[Member]) -> Iterator[Finding]:
    wide = max((b for b in boards if b.material == "board"), key=lambda b: b.width_mm, default=None)
    if wide is None:
        return
    words, timber, built = case.words, case.timber(wide), moisture_built(case, wide)
    low, high, source = service_range(case)
    swells = max(0.0, width_change(wide.width_mm, timber, built, high))
    shrinks = max(0.0, -width_change(wide.width_mm, timber, built, low))
    closes = gap > 0 and swells > gap
    opens = gap + shrinks > case.limit(f"movement.{use}_gap.most")
    level = Level.CAUTION if closes else Level.NOTE if opens else Level.OK
    title = {Level.CAUTION: f"Gaps of the {use}: boards will press together",
             Level.NOTE: f"Gaps of the {use}: they will open as the boards dry",
             Level.OK: f"Gaps of the {use}: room to move"}[level]
    figure = timber.figures.get("tangential_movement") or timber.figures.get("tangential_shrinkage_pct")
    yield Finding(
        asked.rule.rule, level, title,
        f"{timber.name} boards {words.length(wide.width_mm)} wide, built at {built:g} % moisture, swell "
        f"{words.fine(swells)} at {high:g} % and shrink {words.fine(shrinks)} at {low:g} %.",
        f"{words.fine(max(0.0, gap - swells))} to {words.fine(gap + shrinks)}",
        f"0 to {words.fine(case.limit(f'movement.{use}_gap.most'))}",
        f"Wood Handbook eq. 13-2 (seen), 13-3; {figure.source} ({figure.status}); "
        f"{source}" if figure else source,
        "" if level is Level.OK else f"Leave {words.fine(swells)} at least." if closes
        else "Use drier stock or narrower boards.",
        f"gap {words.fine(gap)} − {words.fine(swells)} to + {words.fine(shrinks)}; swelling "
        f"{change_worked(words, wide.width_mm, timber, built, high)}, shrinking "
        f"{change_worked(words, wide.width_mm, timber, built, low)}", customer=level is Level.CAUTION)


RULE = Rule("board gaps", check, needs={"gap": "length"}, may={"users": "text"}, words={"use": USES})
