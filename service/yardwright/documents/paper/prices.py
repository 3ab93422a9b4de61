"""The price as the customer sees it: lines, tax, total, deposit, balance. No costs and no margins."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from typing import Any

from reportlab.platypus import Flowable, KeepTogether, Spacer, Table

from ..pages.tables import plain, ruled, section
from ..pages.words import (
    BODY,
    FAINT,
    INK,
    RIGHT,
    RIGHT_STRONG,
    STRONG,
    amount,
    para,
    percent,
)

Json = Mapping[str, Any]


def prices(price: Json, width: float) -> list[Flowable]:
    """Every line and what they come to. Where VAT is inside the prices, the gross total leads."""
    currency = str(price.get("currency", ""))
    rows = [[para(line.get("text", ""), BODY), para(line.get("quantity", 1), RIGHT),
             para(amount(line.get("unit", ""), currency), RIGHT),
             para(amount(line.get("amount", ""), currency), RIGHT)] for line in price.get("lines") or ()]
    table = ruled(("", "Number", "Each", f"Amount, {currency}"), rows,
                  (width - 214, 46, 82, 86), right=(1, 2, 3))
    return [*section("Price"), table, Spacer(0, 5), KeepTogether([_sums(price, currency, width)])]


def _sums(price: Json, currency: str, width: float) -> Table:
    tax = list(price.get("tax") or ())
    included = any(t.get("included") for t in tax)
    rows = [] if included else _before_total(price, tax, currency)
    total = len(rows)
    rows.append([para("Total", STRONG), para(amount(price.get("total", ""), currency), RIGHT_STRONG)])
    if included:
        rows += [[para(f"of which {t.get('name', 'tax')} {percent(t.get('rate', ''))}", FAINT),
                  para(amount(t.get("amount", ""), currency), RIGHT)] for t in tax]
        rows.append([para("net of tax", FAINT), para(amount(price.get("net", ""), currency), RIGHT)])
    rows += [[para("Deposit to order"), para(amount(price.get("deposit", "0"), currency), RIGHT)],
             [para("Balance on delivery"), para(amount(balance(price), currency), RIGHT)]]
    inner = plain(rows, (170, 90), (
        ("TOPPADDING", (0, 0), (-1, -1), 1.6), ("BOTTOMPADDING", (0, 0), (-1, -1), 1.6),
        ("LINEABOVE", (0, total), (-1, total), 0.8, INK), ("LINEBELOW", (0, total), (-1, total), 0.8, INK)))
    return plain([["", inner]], (width - 260, 260))


def _before_total(price: Json, tax: list[Json], currency: str) -> list[list[Flowable]]:
    rows: list[list[Flowable]] = [[para("Net"), para(amount(price.get("net", ""), currency), RIGHT)]]
    for t in tax:
        text = f"{t.get('name', 'Tax')} {percent(t.get('rate', ''))} on {amount(t.get('base', ''), currency)}"
        rows.append([para(text), para(amount(t.get("amount", ""), currency), RIGHT)])
    return rows


def balance(price: Json) -> str:
    """What is left after the deposit: total less deposit, to the currency's own decimals."""
    try:
        return str(Decimal(str(price.get("total"))) - Decimal(str(price.get("deposit"))))
    except InvalidOperation:
        return ""
