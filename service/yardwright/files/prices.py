"""The shop's price lists: CSV tables with a header, one line for each thing that can be bought.

``#`` starts a comment line. Prices are plain decimals in the shop's currency, lengths carry their unit.
Every complaint names file and line.
"""

from __future__ import annotations

import contextlib
import csv
import difflib
import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from fractions import Fraction
from typing import TypeVar

from ..domain import measure
from ..domain.errors import BadData, BadLength, Fault
from ..domain.market import BoardStock, Goods, RollStock, Section, SheetStock, Timber
from ..domain.money import Money, minor_digits, money
from . import sold_by
from .units import BadUnit, quantity

BOARD_COLUMNS = ("code", "section", "timber", "grade", "moisture", "length", "price", "count")
BOARD_EXTRAS = ("price_per", "width")  # may be left out: then every line is priced by the piece
SHEET_COLUMNS = ("code", "name", "material", "length", "width", "thickness", "density", "price", "count")
ROLL_COLUMNS = ("code", "name", "material", "width", "sold_by", "longest", "mass_kg_m2", "price")
GOODS_COLUMNS = ("code", "name", "kind", "size", "per_pack", "unit", "material", "mass", "price")
GOODS_EXTRAS = ("load_from",)          # who says the load in an anchor's size
ANCHORS = ("anchor", "bracket", "strap")
MOISTURES = ("dry", "green", "wet")
# Sizes without which a kind of goods cannot be chosen for its place.
NEEDED_SIZES = {"screw": ("diameter_nm", "length_nm"), "lag screw": ("diameter_nm", "length_nm"),
                "nail": ("diameter_nm", "length_nm"),
                "bolt": ("length_nm",), "staple": ("length_nm",), "hinge": ("length_nm",)}
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a price list with its place."""

    file: str
    line: int
    cells: Mapping[str, str]
    currency: str

    def fault(self, detail: str) -> BadData:
        return BadData(Fault(f"{self.file}:{self.line}", detail))

    def word(self, column: str) -> str:
        if not (word := self.cells[column].strip()):
            raise self.fault(f"{column} is empty")
        return word

    def choice(self, column: str, known: Mapping[str, object] | tuple[str, ...]) -> str:
        word = self.word(column)
        if word not in known:
            near = difflib.get_close_matches(word, list(known), 1)
            hint = f"did you mean {near[0]!r}?" if near else f"known: {', '.join(known)}"
            raise self.fault(f"{column} {word!r} is not known; {hint}")
        return word

    def number(self, column: str) -> float:
        word = self.word(column)
        try:
            value = float(Decimal(word))
        except InvalidOperation:
            raise self.fault(f"{column} {word!r} is no number") from None
        if not 0 <= value < float("inf"):
            raise self.fault(f"{column} {word} is below 0 or no number")
        return value

    def count(self) -> int | None:
        if not self.cells["count"].strip():
            return None
        value = self.number("count")
        if value != int(value):
            raise self.fault(f"count {value:g} is not whole; leave it empty for any number")
        return int(value)

    def length(self, column: str) -> int:
        word = self.word(column)
        try:
            nm = measure.read(word, None).nm
        except BadLength as bad:
            raise self.fault(f"{column} {word!r}: {bad}; write it with its unit, like \"8 ft\"") from None
        if nm <= 0:
            raise self.fault(f"{column} {word} is not above 0")
        return nm

    def price(self) -> Money:
        word = self.word("price")
        try:
            amount = Decimal(word)
        except InvalidOperation:
            raise self.fault(f"price {word!r} is no plain decimal, like 12.95") from None
        if not amount.is_finite() or amount <= 0:
            raise self.fault(f"price {word} is not above 0")
        exponent = amount.as_tuple().exponent
        if isinstance(exponent, int) and -exponent > minor_digits(self.currency):
            raise self.fault(f"price {word} has more decimals than {self.currency} has")
        return money(amount, self.currency)


def rows(text: str, file: str, columns: tuple[str, ...], currency: str,
         extras: tuple[str, ...] = ()) -> Iterator[Row]:
    """The lines of a price list; the header holds the columns in any order; it may hold the extras."""
    lines = [(i, line) for i, line in enumerate(text.splitlines(), 1)
             if line.strip() and not line.lstrip().startswith("#")]
    if not lines:
        raise BadData(Fault(f"{file}:1", f"the header is missing; it would be {','.join(columns)}"))
    header = [name.strip() for name in next(csv.reader([lines[0][1]]))]
    columns = (*columns, *(extra for extra in extras if extra in header))
    if sorted(header) != sorted(columns):
        odd = set(columns) ^ set(header)
        raise BadData(Fault(f"{file}:{lines[0][0]}", f"the header would be {','.join(columns)}; "
                                                     f"missing or unknown: {', '.join(sorted(odd))}"))
    codes: dict[str, int] = {}
    for number, line in lines[1:]:
        cells = next(csv.reader([line]))
        if len(cells) != len(header):
            raise BadData(Fault(f"{file}:{number}", f"{len(cells)} cells where the header has {len(header)}; "
                                                    "a comma inside a cell needs quotes around it"))
        row = Row(file, number, dict(zip(header, cells, strict=True)), currency)
        if (code := row.word("code")) in codes:
            raise row.fault(f"code {code!r} stands already in line {codes[code]}")
        codes[code] = number
        yield row


def read_boards(text: str, file: str, currency: str, sections: Mapping[str, Section],
                timbers: Mapping[str, Timber]) -> tuple[BoardStock, ...]:
    """boards.csv: section x timber x grade x length, each with its own price."""
    return tuple(_board(row, sections, timbers)
                 for row in rows(text, file, BOARD_COLUMNS, currency, BOARD_EXTRAS))


def _board(row: Row, sections: Mapping[str, Section], timbers: Mapping[str, Timber]) -> BoardStock:
    """A board with the price of one piece, whatever unit the list prices it by."""
    section, length, rate = sections[row.choice("section", sections)], row.length("length"), row.price()
    given = {name: row.cells.get(name, "").strip() for name in BOARD_EXTRAS}
    unit = row.choice("price_per", sold_by.UNITS) if given["price_per"] else "piece"
    random = bool(given["width"]) and row.choice("width", ("random", "fixed")) == "random"
    if random and unit not in ("board foot", "m3"):
        raise row.fault('boards of random width are sold by volume: price_per is "board foot" or "m3"')
    try:
        holds = sold_by.held(section, length, unit, random)
    except ValueError as bad:
        raise row.fault(str(bad)) from None
    price = Money(math.floor(rate.minor * holds + Fraction(1, 2)), rate.currency)
    if price.minor <= 0:
        raise row.fault("one piece of this would cost nothing; is price_per right?")
    return BoardStock(row.word("code"), section, row.choice("timber", timbers), row.word("grade"),
                      row.choice("moisture", MOISTURES), length, price, row.count(),
                      random_width=random, sold_by=unit, rate=rate, measure=float(holds))


def read_sheets(text: str, file: str, currency: str) -> tuple[SheetStock, ...]:
    """sheets.csv: panels by material and size; density in kg/m3."""
    return tuple(SheetStock(row.word("code"), row.word("name"), row.word("material"), row.length("length"),
                            row.length("width"), row.length("thickness"), row.price(), row.number("density"),
                            row.count())
                 for row in rows(text, file, SHEET_COLUMNS, currency))


def read_rolls(text: str, file: str, currency: str) -> tuple[RollStock, ...]:
    """rolls.csv: the price is for ``sold_by`` of length; a roll sold whole has sold_by = longest."""
    return tuple(_roll(row) for row in rows(text, file, ROLL_COLUMNS, currency))


def _roll(row: Row) -> RollStock:
    step, longest = row.length("sold_by"), row.length("longest")
    if longest < step:
        raise row.fault("longest is shorter than sold_by; a roll gives at least one step")
    return RollStock(row.word("code"), row.word("name"), row.word("material"), row.length("width"), step,
                     longest, row.price(), row.number("mass_kg_m2"))


def read_goods(text: str, file: str, currency: str) -> tuple[Goods, ...]:
    """goods.csv: hardware and consumables in packs; size as ``gauge=8; length=2 1/2 in``."""
    return tuple(_goods(row) for row in rows(text, file, GOODS_COLUMNS, currency, GOODS_EXTRAS))


def _goods(row: Row) -> Goods:
    per_pack = row.number("per_pack")
    if per_pack <= 0:
        raise row.fault("per_pack is not above 0")
    kind, size = row.word("kind"), _size(row)
    if lacking := [name.removesuffix("_nm") for name in NEEDED_SIZES.get(kind, ()) if name not in size]:
        raise row.fault(f"size lacks {' and '.join(lacking)}; a {kind} is chosen by it, like length=2 in")
    said = row.cells.get("load_from", "").strip()
    if kind in ANCHORS and "load_n" in size and not said:
        raise row.fault("size gives a load, and load_from does not say whose it is, like maker's sheet 2026")
    return Goods(row.word("code"), row.word("name"), kind, per_pack,
                 row.choice("unit", ("each", "L", "m", "kg")), row.price(), size,
                 row.cells["material"].strip(), _edge(row, "mass", row.cells["mass"], _kg) or 0.0, said)


_SUFFIX = {"N": "_n", "N*mm": "_nmm", "kg": "_kg", "L": "_l"}


def _size(row: Row) -> Mapping[str, float]:
    """Bare numbers keep their name (gauge, litres); a length becomes name_nm, other kinds name_<unit>."""
    size = {}
    for pair in filter(None, (p.strip() for p in row.cells["size"].split(";"))):
        name, equals, value = (part.strip() for part in pair.partition("="))
        if not equals or not name or not value:
            raise row.fault(f"size {pair!r} would be written name=value, like length=2 in")
        try:
            size[name] = float(value)
        except ValueError:
            suffix, number = _edge(row, "size", value, _sized) or ("", 0.0)
            size[name + suffix] = number
    return size


def _sized(text: str) -> tuple[str, float]:
    try:
        return "_nm", float(measure.read(text, None).nm)
    except BadLength as bad:
        for unit, suffix in _SUFFIX.items():
            with contextlib.suppress(BadUnit):
                return suffix, quantity(text, unit)
        raise BadUnit(f"{text!r} is no length ({bad}), force, turning moment, mass or volume") from None


def _kg(text: str) -> float:
    return quantity(text, "kg")


def _edge(row: Row, column: str, text: str, reads: Callable[[str], T]) -> T | None:
    if not text.strip():
        return None
    try:
        return reads(text)
    except BadUnit as bad:
        raise row.fault(f"{column}: {bad}") from None
