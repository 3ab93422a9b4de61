"""How stock and items are named on the sheet."""

from __future__ import annotations

from collections.abc import Sequence

from yardwright.domain.cutting.model import StockLineBought
from yardwright.domain.market import BoardStock
from yardwright.domain.money import Money
from yardwright.domain.quote import Quote, QuotedItem


def plain_words(name: str) -> str:
    """An id as words: ``western-red-cedar`` is ``western red cedar``."""
    return name.replace("-", " ").replace("_", " ")


def titled(name: str) -> str:
    """A name with its first letter large, the rest as written."""
    return name[:1].upper() + name[1:]


def stock_name(line: StockLineBought) -> str:
    """What to ask the yard for."""
    stock = line.stock
    if isinstance(stock, BoardStock):
        words: Sequence[str] = (stock.section.id, plain_words(stock.timber), stock.grade, stock.moisture)
        return " ".join(w for w in words if w)
    return stock.name


def each(line: StockLineBought) -> Money:
    """What one of the line costs, so that number times each is the amount: rolls are priced by the length."""
    price: Money = line.stock.price
    return price if price.times(line.count) == line.amount else line.amount.over(line.count)


def choices(item: QuotedItem) -> list[tuple[str, str]]:
    """What was chosen, in the words the customer saw; timber and finish after it."""
    chosen = item.piece.choices
    told = [(c.label, dict(c.options).get(chosen.get(c.name, ""), "")) for c in item.piece.template.choices]
    return [*told, *((plain_words(k).capitalize(), plain_words(chosen[k])) for k in ("timber", "finish")
                     if k in chosen)]


def item_name(item: QuotedItem, number: int) -> str:
    """An item as the sheet heads it: its letter (as in the marks), name and number of pieces."""
    letter = chr(ord("A") + number) if number < 26 else f"Item {number + 1}"
    count = f"  ×  {item.quantity}" if item.quantity != 1 else ""
    return f"{letter}   {item.piece.template.name}{count}"


def item_names(quote: Quote) -> list[str]:
    """The heading of every item, in order."""
    return [item_name(item, number) for number, item in enumerate(quote.items)]
