"""The shopping list: boards, sheets and rolls, then hardware and consumables, with prices."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable, Spacer

from yardwright.domain.cutting.model import StockLineBought
from yardwright.domain.hardware import HardwareLine
from yardwright.domain.market import RollStock
from yardwright.domain.measure import Writer
from yardwright.domain.money import Money, total

from ..pages.tables import ruled, section
from ..pages.words import BODY, FAINT, RIGHT, RIGHT_SMALL, RIGHT_STRONG, SMALL, STRONG, amount, para
from .names import each, stock_name, titled

_CODE = 94.0


def shopping(stock: Sequence[StockLineBought], hardware: Sequence[HardwareLine], currency: str,
             writer: Writer, width: float) -> list[Flowable]:
    """What to fetch, what it costs, and a box to tick."""
    story: list[Flowable] = section("To buy")
    if stock:
        story.append(ruled(
            ("Code", "Boards, sheets, rolls", "Length", "Number", "Each", "Amount", ""),
            [*(_stock_row(line, writer) for line in stock), _sum([s.amount for s in stock], currency, 7)],
            (_CODE, width - _CODE - 62 - 46 - 62 - 66 - 16, 62, 46, 62, 66, 16), right=(3, 4, 5),
            together=(len(stock) - 1,)))
        story.append(Spacer(0, 10))
    if hardware:
        story.append(ruled(
            ("Code", "Hardware and consumables", "Needed", "Packs", "A pack", "Amount", ""),
            [*(_goods_row(line, writer) for line in hardware),
             _sum([h.goods.price.times(h.packs) for h in hardware], currency, 7)],
            (_CODE, width - _CODE - 74 - 36 - 60 - 66 - 16, 74, 36, 60, 66, 16), right=(2, 3, 4, 5),
            together=(len(hardware) - 1,)))
    return story


def _stock_row(line: StockLineBought, writer: Writer) -> list[Flowable | list[Flowable]]:
    said = [f"{line.spares} of them spare for defects"] if line.spares else []
    said += ["from the rack, not to buy"] if line.on_hand else []
    said += [f"cut from the roll, {_by_length(line, writer)}"] if line.kind == "roll" else []
    name: list[Flowable] = [para(titled(stock_name(line)), BODY), *(para(s, FAINT) for s in said)]
    price = each(line)
    return [para(line.stock.code, SMALL), name, para(writer.length(line.length_nm), SMALL),
            para(line.count, RIGHT), para(amount(price.text(), price.currency), RIGHT_SMALL),
            para(amount(line.amount.text(), line.amount.currency), RIGHT), para("☐", BODY)]


def _by_length(line: StockLineBought, writer: Writer) -> str:
    stock = line.stock
    assert isinstance(stock, RollStock)
    return f"{amount(stock.price.text(), stock.price.currency)} for {writer.length(stock.sold_by_nm)}"


def _need(line: HardwareLine, writer: Writer) -> str:
    """How much of it, in a shop of inches also in gallons or fluid ounces (1 gal = 3.785411784 L)."""
    if line.goods.unit == "each":
        return f"{round(line.need)}"
    if line.goods.unit != "L" or writer.units != "in":
        return f"{line.need:.3g} {line.goods.unit}"
    gallons = line.need / 3.785411784
    said = f"{gallons:.2f} gal" if gallons >= 0.25 else f"{gallons * 128:.1f} fl oz"
    return f"{line.need:.3g} L, {said}"


def _goods_row(line: HardwareLine, writer: Writer) -> list[Flowable | list[Flowable]]:
    goods = line.goods
    name: list[Flowable] = [para(goods.name, BODY), para(line.working, FAINT)]
    spent = goods.price.times(line.packs)
    return [para(goods.code, SMALL), name, para(_need(line, writer), RIGHT_SMALL),
            para(line.packs, RIGHT), para(amount(goods.price.text(), goods.price.currency), RIGHT_SMALL),
            para(amount(spent.text(), spent.currency), RIGHT), para("☐", BODY)]


def _sum(amounts: Sequence[Money], currency: str, columns: int) -> list[Flowable]:
    cells: list[Flowable] = [para("") for _ in range(columns)]
    cells[1] = para("Together", STRONG)
    cells[columns - 2] = para(amount(total(amounts, currency).text(), currency), RIGHT_STRONG)
    return cells
