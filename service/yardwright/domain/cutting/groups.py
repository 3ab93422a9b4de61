"""All the cutting of one job: a plan per timber, thickness and grade, per sheet and per roll material.

A part used at its section's full width comes from that section; only where the yard sells no such length is
it ripped from a wider one of the same thickness. Ripped parts come from whatever width is cheapest. Parts
are cut to their rough length. Boards for defects are added by grade: the shop's share of the boards of each
section, rounded up to whole boards of the longest length bought.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ..errors import Fault, Refused
from ..job import OnHand
from ..market import BoardStock, RollStock, SheetStock
from ..money import Money
from ..parts import Part
from ..shop import Shop
from .glue_ups import matched_sets
from .model import CutRules, CuttingGroup, CuttingPlan, NeededPart, StockLine, StockLineBought
from .plan import plan
from .random_width import as_estimate, estimated, plannable, usual_board
from .spares import spare_boards

# Two widths of mesh, liner or fabric that make up a panel lie over one another by this much
# (a hand's width; common practice, no source).
OVERLAP_NM = 100_000_000
Stock = BoardStock | SheetStock | RollStock


@dataclass(frozen=True, slots=True)
class Batch:
    """Parts that are cut from one kind of stock, and that stock."""

    name: str
    material: str
    kind: str
    parts: tuple[Part, ...]
    stock: tuple[Stock, ...]
    rules: CutRules


def plan_job(
    parts: Sequence[Part], shop: Shop, on_hand: Sequence[OnHand] = (), effort: str = "normal"
) -> tuple[tuple[StockLineBought, ...], tuple[CuttingGroup, ...]]:
    """Everything to buy or take from the rack for these parts, and how each piece is cut.

    Raises NoStock naming the item, the part and what would do.
    """
    bought: list[StockLineBought] = []
    groups: list[CuttingGroup] = []
    rack = [held.count for held in on_hand]
    for batch in batches(parts, shop, on_hand):
        stock = tuple(_left_on_rack(line, rack) for line in batch.stock)
        batch = replace(batch, stock=stock)
        cut, note = _cut(batch, effort)
        for purchase in cut.purchases:
            if purchase.code.startswith(_RACK):
                rack[int(purchase.code[len(_RACK) :]) - 1] -= purchase.count
        groups.append(CuttingGroup(batch.name, batch.material, as_estimate(cut, batch.stock)))
        bought += _bought(batch, cut, shop, note)
    return tuple(bought), tuple(groups)


_RACK = "on-hand-"


def _left_on_rack(line: Stock, rack: Sequence[int]) -> Stock:
    if isinstance(line, BoardStock) and line.code.startswith(_RACK):
        return replace(line, count=rack[int(line.code[len(_RACK) :]) - 1])
    return line


def cut_rules(shop: Shop) -> CutRules:
    """The shop's saw as the planner takes it, and its prices of cuts in minor units.

    These prices choose the plan and are charged to nobody: the quote pays boards and hours.
    """
    saw, cuts = shop.saw, shop.prices.cut_prices
    rules = CutRules(
        saw.crosscut_kerf_nm,
        saw.rip_kerf_nm,
        saw.end_trim_nm,
        saw.edge_trim_nm,
        saw.longest_carry_nm,
        saw.least_rip_length_nm,
        saw.least_strip_nm,
        saw.least_offcut_nm,
    )
    if cuts is None:
        return rules
    return replace(
        rules,
        crosscut_cost=float(cuts.crosscut.minor),
        rip_cost_per_m=float(cuts.rip_per_m.minor),
        setup_cost=float(cuts.set_up.minor),
        offcut_credit_per_m=float(cuts.offcut_credit_per_m.minor),
    )


def batches(parts: Sequence[Part], shop: Shop, on_hand: Sequence[OnHand]) -> Iterator[Batch]:
    """Parts by the stock they are cut from: timber, thickness and grade; sheet; roll."""
    grouped: dict[tuple[str, str, int, str], list[Part]] = {}
    for part in parts:
        grouped.setdefault(_key(part, shop), []).append(part)
    for (material, what, thickness, grade), members in grouped.items():
        if material == "board":
            yield _board_batch(what, thickness, grade, members, shop, on_hand)
        elif material == "sheet":
            sheets = tuple(s for s in shop.market.sheets if (s.material, s.thickness_nm) == (what, thickness))
            name = sheets[0].name if sheets else what
            # A panel saw or track saw: no least strip; sheets are carried whole.
            trim = shop.saw.sheet_trim_nm
            rules = replace(cut_rules(shop), end_trim_nm=trim, edge_trim_nm=trim, longest_carry_nm=None)
            yield Batch(name, what, "sheet", tuple(members), sheets, rules)
        else:
            rolls = tuple(r for r in shop.market.rolls if r.material == what)
            name = f"{what[:1].upper()}{what[1:]} from the roll"
            yield Batch(name, what, "roll", tuple(members), rolls, CutRules(0, 0, overlap_nm=OVERLAP_NM))


def _key(part: Part, shop: Shop) -> tuple[str, str, int, str]:
    market = shop.market
    if part.material == "board":
        section = market.sections.get(part.section)
        return "board", part.timber, section.thickness_nm if section else part.thickness_nm, part.grade
    if part.material == "sheet":
        for sheet in market.sheets:
            if part.section in (sheet.code, sheet.material, sheet.name):
                return "sheet", sheet.material, sheet.thickness_nm, ""
        return "sheet", part.section, part.thickness_nm, ""
    for roll in market.rolls:
        if part.section in (roll.code, roll.material, roll.name):
            return "roll", roll.material, 0, ""
    return "roll", part.section, 0, ""


def _board_batch(
    timber: str, thickness: int, grade: str, members: list[Part], shop: Shop, on_hand: Sequence[OnHand]
) -> Batch:
    market = shop.market
    sold = (b for b in market.boards if (b.timber, b.grade) == (timber, grade))
    stock: list[Stock] = [*plannable([b for b in sold if b.section.thickness_nm == thickness])]
    for number, held in enumerate(on_hand, 1):
        section = market.sections.get(held.section)
        if section is not None and held.timber == timber and section.thickness_nm == thickness and held.count:
            stock.append(
                BoardStock(
                    f"{_RACK}{number}",
                    section,
                    timber,
                    grade,
                    "dry",
                    held.length_nm,
                    held.price or _price_of_held(held, shop),
                    held.count,
                    True,
                    held.blocked,
                )
            )
    sections = ", ".join(dict.fromkeys(part.section for part in members))
    known = market.timbers.get(timber)
    name = f"{known.name if known else timber}, {sections}" + (f", {grade}" if grade else "")
    return Batch(name, timber, "board", tuple(members), tuple(stock), cut_rules(shop))


def _price_of_held(held: OnHand, shop: Shop) -> Money:
    """The shop's share of what the same length costs where a metre of that section is cheapest."""
    per_nm = [
        board.price.minor / board.length_nm
        for board in shop.market.boards
        if (board.section.id, board.timber) == (held.section, held.timber)
    ]
    share = float(shop.prices.on_hand_share)
    return Money(math.ceil(min(per_nm, default=0.0) * held.length_nm * share - 1e-6), shop.prices.currency)


def _cut(batch: Batch, effort: str) -> tuple[CuttingPlan, str]:
    """The plan; when matched strips come out of no single board, a plan without that, and a note."""
    lines = [line_of(line, batch.rules) for line in batch.stock]
    needed = [needed_part(part, batch) for part in batch.parts]
    matched = matched_sets(batch.parts, needed)
    try:
        return plan(matched, lines, batch.rules, effort), ""
    except Refused as refusal:
        if matched != needed:
            try:
                return plan(needed, lines, batch.rules, effort), "; matched strips do not come from one board"
            except Refused:
                pass
        raise told_of_item(refusal, batch) from None


def told_of_item(refusal: Refused, batch: Batch) -> Refused:
    """The refusal put to the item that asks for the part, in the part's own name."""
    faults = []
    for fault in refusal.faults:
        where = fault.pointer.split("/")
        if len(where) > 2 and where[1] == "parts":
            part = batch.parts[int(where[2])]
            faults.append(
                Fault(f"/items/{part.item}/dimensions", f"{part.name} ({batch.name}): {fault.detail}")
            )
        else:
            faults.append(Fault(f"/items/{batch.parts[0].item}", f"{batch.name}: {fault.detail}"))
    return type(refusal)(*faults)


def needed_part(part: Part, batch: Batch) -> NeededPart:
    """The part as the planner needs it: rough, its edges trimmed where a glue edge asks for it."""
    grain = part.grain if batch.kind != "board" and part.grain else "along"
    only = part.width_nm if part.full_width and _own_section_gives(part, batch) else 0
    return NeededPart(
        part.mark,
        part.rough_length_nm,
        part.width_nm,
        part.count,
        grain,
        trim_edges=part.glue_up_kind == "edge" and batch.kind == "board",
        from_width_nm=only,
    )


def _own_section_gives(part: Part, batch: Batch) -> bool:
    if batch.kind != "board" or part.glue_up_kind == "edge":
        return False
    rules = batch.rules
    return any(
        board.width_nm == part.width_nm
        and (board.on_hand or rules.longest_carry_nm is None or board.length_nm <= rules.longest_carry_nm)
        and board.count is None
        and not board.random_width
        and board.length_nm - 2 * rules.end_trim_nm >= part.rough_length_nm
        for board in batch.stock
        if isinstance(board, BoardStock)
    )


def line_of(line: Stock, rules: CutRules) -> StockLine:
    """What is sold or on hand as the planner's stock line."""
    if isinstance(line, BoardStock) and line.random_width:
        return usual_board(line, rules)
    if isinstance(line, BoardStock):
        return StockLine(
            line.code,
            line.length_nm,
            line.width_nm,
            line.price.minor,
            "board",
            line.count,
            line.on_hand,
            line.blocked,
        )
    if isinstance(line, SheetStock):
        return StockLine(line.code, line.length_nm, line.width_nm, line.price.minor, "sheet", line.count)
    return StockLine(
        line.code, line.sold_by_nm, line.width_nm, line.price.minor, "roll", longest_nm=line.longest_nm
    )


def _bought(batch: Batch, cut: CuttingPlan, shop: Shop, note: str) -> Iterator[StockLineBought]:
    by_code = {line.code: line for line in batch.stock}
    if batch.kind == "roll":
        for layout in cut.layouts:
            roll = by_code[layout.code]
            yield StockLineBought(
                roll,
                "roll",
                1,
                0,
                False,
                layout.length_nm,
                Money(layout.price, shop.prices.currency),
                f"{len(layout.parts)} cut from one length by the cutting plan",
            )
        return
    spares = spare_boards(batch.stock, cut, shop) if batch.kind == "board" else {}
    for purchase in cut.purchases:
        line = by_code[purchase.code]
        assert not isinstance(line, RollStock)
        count, why = spares.get(purchase.code, (0, ""))
        held = isinstance(line, BoardStock) and line.on_hand
        amount = line.price.times(purchase.count + count)
        working = f"{purchase.count} by the cutting plan{why}"
        if isinstance(line, BoardStock) and line.random_width:
            amount, working = estimated(line, cut, purchase.count, shop.random_width_yield)
        yield StockLineBought(
            line,
            batch.kind,
            purchase.count + count,
            count,
            held,
            line.length_nm,
            amount,
            working + note,
        )
