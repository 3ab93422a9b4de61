"""A shop's folder and the shared data, read once into a Shop.

The folder holds shop.toml (who the shop is, how it saws, fits, charges and promises) and its price lists
boards.csv, sheets.csv, rolls.csv and goods.csv; its own timbers/, sections/, finishes/, times/, limits/ and
templates/ add to the shared ones or replace those of the same id.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

from .. import __version__
from ..domain.errors import BadData, Fault
from ..domain.market import BoardStock, Figure, Goods, Market
from ..domain.money import Money, money
from ..domain.shop import (
    RANDOM_WIDTH_YIELD,
    CutPrices,
    Fitting,
    Identity,
    Limits,
    PriceRules,
    Saw,
    Shop,
    TaxRule,
    Terms,
)
from . import prices, rules, trade
from .templates import load
from .tomldoc import Entry, read

PARTS = ("id", "units", "currency", "price_list", "identity", "saw", "fitting", "allowance", "prices",
         "waste", "defect_spares", "tax", "terms", "cut_prices", "on_hand", "random_width")


def read_shop(folder: Path, data: Path) -> Shop:
    """The shop of ``folder`` with the shared data of ``data``.

    Raises BadData or BadTemplate; each fault names file and line.
    """
    templates = _templates(data / "templates", ours=True) | _templates(folder / "templates")
    return replace(read_bare_shop(folder, data), templates=templates)


def read_bare_shop(folder: Path, data: Path) -> Shop:
    """The same without any template."""
    top = read(folder / "shop.toml")
    top.only(*PARTS)
    market, charged = _market(top, folder, data), _price_rules(top)
    _credit_fits(top, charged, market.boards)
    return Shop(
        id=top.word("id"), units=top.one_of("units", ("in", "mm")), identity=_identity(top.table("identity")),
        market=market, saw=_saw(top.table("saw")),
        fitting=_fitting(top.table("fitting")),
        times={**rules.read_times(data / "times"), **rules.read_times(folder / "times")},
        allowance=trade.figure(top.table("allowance")), prices=charged,
        terms=_terms(top.table("terms")),
        limits=Limits({**rules.read_limits(data / "limits"), **rules.read_limits(folder / "limits")}),
        keep_clear={**rules.read_keep_clear(data / "limits"), **rules.read_keep_clear(folder / "limits")},
        templates={},
        random_width_yield=_random_width(top),
        versions={"service": __version__, "templates": _digest(data / "templates"),
                  "prices": f"{top.table('price_list').word('as_of')} {_digest(folder)}",
                  "data": _digest(data, "demo_shop*", "templates")},
    )


def _templates(folder: Path, ours: bool = False) -> dict[str, Any]:
    return {found.id: found for found in (load(path, ours) for path in sorted(folder.glob("*.toml")))}


def _digest(folder: Path, *but: str) -> str:
    """Twelve hex digits that change when any file below the folder does."""
    found = hashlib.sha256()
    for path in sorted(p for p in folder.rglob("*") if p.suffix in (".toml", ".csv")):
        inside = path.relative_to(folder)
        if not any(Path(inside.parts[0]).match(pattern) for pattern in but):
            found.update(f"{inside.as_posix()}\n".encode() + path.read_bytes())
    return found.hexdigest()[:12]


def _identity(entry: Entry) -> Identity:
    entry.only("name", "address", "phone", "email", "tax_number")
    return Identity(entry.word("name"), entry.words("address"), entry.word("phone"), entry.word("email"),
                    entry.word("tax_number"))


def _market(top: Entry, folder: Path, data: Path) -> Market:
    listed, currency = top.table("price_list"), top.word("currency")
    listed.only("as_of", "demonstration")
    try:
        date.fromisoformat(listed.word("as_of"))
    except ValueError:
        raise listed.fault('a date is written like "2026-11-02"', "as_of") from None
    timbers = {**trade.read_timbers(data / "timbers"), **trade.read_timbers(folder / "timbers")}
    sections = {**trade.read_sections(data / "sections"), **trade.read_sections(folder / "sections")}
    boards = prices.read_boards(*_csv(folder, "boards"), currency, sections, timbers)
    goods = prices.read_goods(*_csv(folder, "goods"), currency)
    _spares_match(top, boards, goods)
    return Market(
        timbers, sections, boards,
        prices.read_sheets(*_csv(folder, "sheets"), currency),
        prices.read_rolls(*_csv(folder, "rolls"), currency),
        goods, {**trade.read_finishes(data / "finishes"), **trade.read_finishes(folder / "finishes")},
        listed.word("as_of"), listed.truth("demonstration"))


def _spares_match(top: Entry, boards: Sequence[BoardStock], goods: Sequence[Goods]) -> None:
    """Every grade sold has its share of spare boards, every share of waste a kind of goods it is for."""
    spares, waste = top.table("defect_spares"), top.table("waste")
    for grade in sorted({board.grade for board in boards} - set(spares.value)):
        raise spares.fault(f"grade {grade!r} of boards.csv has no share of spare boards here; \"0\" would do")
    waste.only(*sorted({line.kind for line in goods}))


def _csv(folder: Path, name: str) -> tuple[str, str]:
    """The text of a price list and its name for complaints."""
    shown = f"{folder.name}/{name}.csv"
    try:
        return (folder / f"{name}.csv").read_text(encoding="utf-8-sig"), shown
    except FileNotFoundError:
        raise BadData(Fault(shown, "the file is missing; a shop has boards.csv, sheets.csv, "
                                                 "rolls.csv and goods.csv")) from None
    except UnicodeDecodeError as bad:
        raise BadData(Fault(shown, f"the file is not UTF-8 text: {bad}")) from None


def _saw(entry: Entry) -> Saw:
    names = ("crosscut_kerf", "rip_kerf", "end_trim", "edge_trim", "longest_carry", "least_rip_length",
             "least_strip", "least_part", "least_offcut", "step", "finished_allowance")
    entry.only(*names, "sheet_trim")
    trim = entry.length("sheet_trim") if entry.has("sheet_trim") else 0
    saw = Saw(*(entry.length(name) for name in names), sheet_trim_nm=trim)
    if saw.step_nm <= 0 or saw.longest_carry_nm <= 0:
        raise entry.fault("step and longest_carry are above 0")
    return saw


def _fitting(entry: Entry) -> Fitting:
    entry.only("tape_class", "reading", "allowance", "airflow", "walkway")
    return Fitting(entry.one_of("tape_class", ("I", "II", "III")), entry.length("reading"),
                   entry.length("allowance"), entry.length("airflow"), entry.length("walkway"))


def _amount(entry: Entry, key: str, currency: str) -> Money:
    word = entry.word(key)
    try:
        amount = money(word, currency)
    except ArithmeticError:
        raise entry.fault(f'{word!r} is no amount of {currency}, like "65.00"', key) from None
    if amount.minor < 0:
        raise entry.fault(f"{word} is below zero", key)
    return amount


def _price_rules(top: Entry) -> PriceRules:
    entry, currency = top.table("prices"), top.word("currency")
    entry.only("rounding", "round_total_to", "labour_rate", "overhead_per_hour", "material_handling",
               "uplift", "uplift_rate", "deposit", "delivery_free", "delivery_per_km", "delivery_least",
               "second_person_over")
    uplift = entry.one_of("uplift", ("margin", "markup"))
    return PriceRules(
        currency, entry.one_of("rounding", ("half-up", "half-even")),
        _amount(entry, "round_total_to", currency),
        _amount(entry, "labour_rate", currency), _amount(entry, "overhead_per_hour", currency),
        entry.share("material_handling", below_one=False), uplift,
        entry.share("uplift_rate", below_one=uplift == "margin"),
        _shares(top.table("waste")), _shares(top.table("defect_spares")),
        _taxes(top),
        entry.share("deposit", below_one=False), _distance(entry, "delivery_free"),
        _amount(entry, "delivery_per_km", currency), _amount(entry, "delivery_least", currency),
        entry.quantity("second_person_over", "kg"), _cut_prices(top, currency), _on_hand(top))


def _cut_prices(top: Entry, currency: str) -> CutPrices | None:
    """[cut_prices] may be left out, and each of its lines: nothing then."""
    if not top.has("cut_prices"):
        return None
    entry, names = top.table("cut_prices"), ("crosscut", "rip_per_m", "set_up", "offcut_credit_per_m")
    entry.only(*names)
    return CutPrices(*(_amount(entry, name, currency) if entry.has(name) else Money(0, currency)
                       for name in names))


def _on_hand(top: Entry) -> str:
    if not top.has("on_hand"):
        return "0"
    top.table("on_hand").only("price_share")
    return top.table("on_hand").share("price_share", below_one=False)


def _random_width(top: Entry) -> Figure:
    """[random_width] may be left out: then the share common practice gives."""
    if not top.has("random_width"):
        return RANDOM_WIDTH_YIELD
    entry = top.table("random_width")
    entry.only("yield")
    share = trade.figure(entry.table("yield"))
    if share.unit != "1" or not 0 < share.value <= 1:
        raise entry.fault('a share above 0 and at most 1 is expected, unit "1"', "yield")
    return share


def _credit_fits(top: Entry, prices: PriceRules, boards: Sequence[BoardStock]) -> None:
    """A credit that made an offcut worth more than its board would have the shop buy boards to keep them."""
    credit = prices.cut_prices.offcut_credit_per_m.minor if prices.cut_prices else 0
    for board in boards:
        if credit * board.length_nm > board.price.minor * 10**9:
            raise top.table("cut_prices").fault(f"by this credit the whole of {board.code} would be worth "
                                                "more than it costs", "offcut_credit_per_m")


def _distance(entry: Entry, key: str) -> float:
    """A distance in km."""
    return entry.quantity(key, "mm") / 1e6


def _shares(entry: Entry) -> Mapping[str, str]:
    return {name: entry.share(name) for name in entry.value}


def _taxes(top: Entry) -> tuple[TaxRule, ...]:
    taxes = tuple(_tax(row) for row in top.rows("tax")) if top.has("tax") else ()
    if len({tax.included for tax in taxes}) > 1:
        raise top.fault("either every tax is included in the prices shown or none is", "tax", 0, "included")
    return taxes


def _tax(entry: Entry) -> TaxRule:
    entry.only("name", "rate", "included", "by", "on")
    return TaxRule(entry.word("name"), entry.share("rate"), entry.truth("included"),
                   entry.one_of("by", ("item", "invoice")), entry.one_of("on", ("all", "materials")))


def _terms(entry: Entry) -> Terms:
    entry.only("valid_days", "lead_weeks", "hours_per_day", "lines", "cautions", "cancellation",
               "home_sale_notice")
    weeks = entry.numbers("lead_weeks")
    if len(weeks) != 2 or weeks[0] > weeks[1]:
        raise entry.fault("the least and the most weeks are expected, like [3, 5]", "lead_weeks")
    hours = entry.number("hours_per_day")
    if not 0 < hours <= 24:
        raise entry.fault("a day has more than 0 and at most 24 hours", "hours_per_day")
    return Terms(entry.whole("valid_days", 1), (int(weeks[0]), int(weeks[1])), hours, entry.words("lines"),
                 entry.words("cautions"), entry.words("cancellation"),
                 entry.one_of("home_sale_notice", ("", "us")) if entry.has("home_sale_notice") else "")
