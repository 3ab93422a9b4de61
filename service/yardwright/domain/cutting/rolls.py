"""Rolls (mesh, liner, fabric): fixed widths bought by length, cut across first and then along.

A panel wider than the roll is laid from several widths that overlap. Pieces are set side by side while the
width allows, longest first. A panel is turned where that spares a joint. The bound takes the panels as they
are laid: their area over the roll's width, and those too wide to lie side by side one after another.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..errors import Fault, NoStock
from .model import CutRules, CutStep, CuttingPlan, Layout, NeededPart, Offcut, Placed, Purchase, StockLine
from .problem import check_asked
from .refusals import say


@dataclass(frozen=True, slots=True)
class Piece:
    """One width of the roll that goes into a panel."""

    mark: str
    length_nm: int
    width_nm: int


def plan_rolls(parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules) -> CuttingPlan:
    """The cheapest roll for the group, cut length by cut length; raises NoStock where a panel is too long."""
    check_asked(parts, stock, rules)
    if not parts:
        return CuttingPlan("optimal", 0, 0, 0, 1.0, (), ())
    plans = []
    faults: list[Fault] = []
    for line in stock:
        fault = _too_long(parts, line, rules)
        if fault:
            faults.append(fault)
        else:
            plans.append(_on(line, parts, rules))
    if not plans:
        raise NoStock(faults[0] if faults else Fault("/stock", "there is no roll to cut these panels from"))
    best = min(plans, key=lambda plan: (plan.cost, -plan.yield_share))
    bound = min(best.cost, min(plan.lower_bound for plan in plans))
    return CuttingPlan(
        "optimal" if bound == best.cost else "bounded",
        best.cost,
        best.cost,
        bound,
        best.yield_share,
        best.layouts,
        best.purchases,
    )


def widths(panel_nm: int, roll_nm: int, overlap_nm: int) -> tuple[int, ...]:
    """The widths that make up a panel: full ones, then what is left; each joint overlaps.

    >>> widths(1000, 400, 100)
    (400, 400, 400)
    """
    if panel_nm <= roll_nm:
        return (panel_nm,)
    laid = [roll_nm]
    covered = roll_nm
    while covered < panel_nm:
        width = min(roll_nm, panel_nm - covered + overlap_nm)
        laid.append(width)
        covered += width - overlap_nm
    return tuple(laid)


def _pieces(parts: Sequence[NeededPart], line: StockLine, rules: CutRules) -> list[Piece]:
    pieces = []
    for part in parts:
        length, width = _lie(part, line)
        for _ in range(part.count):
            pieces += [Piece(part.mark, length, w) for w in widths(width, line.width_nm, rules.overlap_nm)]
    return sorted(pieces, key=lambda p: (-p.length_nm, -p.width_nm, p.mark))


def _lie(part: NeededPart, line: StockLine) -> tuple[int, int]:
    """Turned where that avoids a joint, or where it takes less of the roll."""
    ways = [(part.length_nm, part.width_nm)]
    if part.grain == "either":
        ways.append((part.width_nm, part.length_nm))
    longest = line.longest_nm or line.length_nm
    return min(
        (way for way in ways if way[0] <= longest),
        key=lambda way: (way[1] > line.width_nm, way[0] * -(-way[1] // line.width_nm)),
        default=ways[0],
    )


def _too_long(parts: Sequence[NeededPart], line: StockLine, rules: CutRules) -> Fault | None:
    longest = line.longest_nm or line.length_nm
    if rules.overlap_nm >= line.width_nm:
        return Fault("/stock", f"{line.code}: the overlap {say(rules.overlap_nm)} is not less than its width")
    for at, part in enumerate(parts):
        if _lie(part, line)[0] > longest:
            return Fault(
                f"/parts/{at}/length",
                f"part {part.mark} is {say(part.length_nm)} long; {line.code} comes in one piece up to "
                f"{say(longest)}. A panel within that, or a longer roll, would do",
            )
    return None


def _on(line: StockLine, parts: Sequence[NeededPart], rules: CutRules) -> CuttingPlan:
    pieces = _pieces(parts, line, rules)
    shelves = _shelves(pieces, line, rules)
    laid = [_layout(line, run, rules) for run in _cut_lengths(shelves, line, rules)]
    steps = sum(layout.length_nm // line.length_nm for layout in laid)
    area = sum(p.length_nm * p.width_nm for p in pieces)
    bound = _least_steps(pieces, line, rules) * line.price
    cost = steps * line.price
    return CuttingPlan(
        "optimal" if bound == cost else "bounded",
        cost,
        cost,
        min(bound, cost),
        area / sum(x.length_nm * x.width_nm for x in laid),
        tuple(laid),
        (Purchase(line.code, steps, cost),),
    )


def _least_steps(pieces: Sequence[Piece], line: StockLine, rules: CutRules) -> int:
    """Steps of the roll no way to cut does without: the area, and pieces too wide to lie side by side."""
    area = sum(p.length_nm * p.width_nm for p in pieces)
    wide = [p.length_nm for p in pieces if 2 * p.width_nm + rules.rip_kerf_nm > line.width_nm]
    length = max(-(-area // line.width_nm), sum(wide), max(p.length_nm for p in pieces))
    return -(-length // line.length_nm)


def _shelves(pieces: Sequence[Piece], line: StockLine, rules: CutRules) -> list[list[Piece]]:
    """Side by side, longest first; each piece into the first shelf with room across."""
    shelves: list[list[Piece]] = []
    room: list[int] = []
    for piece in pieces:
        for at, free in enumerate(room):
            if piece.width_nm + rules.rip_kerf_nm <= free:
                shelves[at].append(piece)
                room[at] -= piece.width_nm + rules.rip_kerf_nm
                break
        else:
            shelves.append([piece])
            room.append(line.width_nm - piece.width_nm)
    return shelves


def _cut_lengths(shelves: list[list[Piece]], line: StockLine, rules: CutRules) -> list[list[list[Piece]]]:
    """Shelves shared out over as few cut lengths as the roll's longest piece allows."""
    longest = (line.longest_nm or line.length_nm) - 2 * rules.end_trim_nm
    runs: list[list[list[Piece]]] = []
    room: list[int] = []
    for shelf in shelves:
        length = shelf[0].length_nm
        for at, free in enumerate(room):
            if length + rules.crosscut_kerf_nm <= free:
                runs[at].append(shelf)
                room[at] -= length + rules.crosscut_kerf_nm
                break
        else:
            runs.append([shelf])
            room.append(longest - length)
    return runs


def _layout(line: StockLine, run: list[list[Piece]], rules: CutRules) -> Layout:
    parts: list[Placed] = []
    offcuts: list[Offcut] = []
    steps: list[CutStep] = []
    x = rules.end_trim_nm
    for number, shelf in enumerate(run, 1):
        length, y = shelf[0].length_nm, 0
        cut = (x + length, 0, x + length, line.width_nm)
        marks = tuple(dict.fromkeys(p.mark for p in shelf))
        steps.append(CutStep("crosscut", length, 1, "roll", marks, (cut,)))
        for piece in shelf:
            parts.append(Placed(piece.mark, x, y, piece.length_nm, piece.width_nm))
            if y + piece.width_nm < line.width_nm:
                top = y + piece.width_nm
                cut = (x, top, x + length, top)
                steps.append(CutStep("rip", piece.width_nm, 1, f"segment {number}", (piece.mark,), (cut,)))
            y += piece.width_nm + rules.rip_kerf_nm
        if line.width_nm > y:
            offcuts.append(Offcut(x, y, length, line.width_nm - y, False))
        x += length + rules.crosscut_kerf_nm
    used = x - rules.crosscut_kerf_nm + rules.end_trim_nm
    bought = -(-used // line.length_nm) * line.length_nm
    if bought > x:
        offcuts.append(Offcut(x, 0, bought - x, line.width_nm, False))
    price = bought // line.length_nm * line.price
    return Layout(line.code, bought, line.width_nm, tuple(parts), tuple(offcuts), tuple(steps), price)
