"""The head of the quote: who offers, to whom, under what reference, until when, and for how much."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from reportlab.platypus import Flowable, HRFlowable, Spacer

from ..pages.tables import plain
from ..pages.words import (
    ACCENT,
    FAINT,
    LABEL,
    RIGHT_FAINT,
    SHOP,
    SMALL,
    STRONG,
    TITLE,
    TOTAL,
    WASH,
    amount,
    day,
    para,
)

Json = Mapping[str, Any]


def heading(quote: Json, width: float) -> list[Flowable]:
    """Shop, customer, reference, dates and the figure that counts."""
    return [*_shop(quote.get("shop") or {}, width), Spacer(0, 12), para("Quote", TITLE), Spacer(0, 7),
            _key_facts(quote, width), Spacer(0, 4)]


def _shop(shop: Json, width: float) -> list[Flowable]:
    reach = [str(v) for v in (shop.get("phone"), shop.get("email")) if v]
    tax = [f"Tax number {shop['tax_number']}"] if shop.get("tax_number") else []
    lines = "\n".join([", ".join(str(line) for line in shop.get("address") or ()), "  ·  ".join(reach), *tax])
    table = plain([[para(shop.get("name", ""), SHOP), para(lines, RIGHT_FAINT)]],
                  (width * 0.52, width * 0.48), (("VALIGN", (0, 0), (-1, -1), "BOTTOM"),))
    return [table, Spacer(0, 5), HRFlowable(width="100%", thickness=1.2, color=ACCENT, spaceAfter=0)]


def _key_facts(quote: Json, width: float) -> Flowable:
    """Customer and dates to the left, the total in a quiet box to the right."""
    box = 190.0
    left = width - box - 14
    customer = quote.get("customer") or {}
    to: list[Flowable] = [para("For", LABEL), para(customer.get("name") or "–", STRONG)]
    to += [para(customer[key], SMALL) for key in ("address", "phone", "email") if customer.get(key)]
    when: list[Flowable] = []
    for label, value in (("Reference", quote.get("reference")), ("Date", day(quote.get("date", ""))),
                         ("Valid until", day(quote.get("valid_until", ""))), ("Ready in", _lead(quote))):
        when += [para(label, LABEL), para(value or "–", SMALL)] if value or label != "Ready in" else []
    parties = plain([[to, when]], (left * 0.58, left * 0.42), (("RIGHTPADDING", (0, 0), (0, 0), 10),))
    return plain([[parties, "", _total_box(quote.get("price") or {}, box)]], (left, 14, box))


def _lead(quote: Json) -> str:
    weeks = list(dict.fromkeys(quote.get("lead_weeks") or ()))
    return f"{' to '.join(str(w) for w in weeks)} weeks from the deposit" if weeks else ""


def _total_box(price: Json, width: float) -> Flowable:
    currency = str(price.get("currency", ""))
    names = " and ".join(str(t.get("name", "tax")) for t in price.get("tax") or ())
    inside: list[Flowable] = [
        para("Total to pay", LABEL), para(amount(price.get("total", ""), currency), TOTAL),
        para(f"{names} included" if names else "No tax added", FAINT),
        para(f"Deposit to order {amount(price.get('deposit', '0'), currency)}", SMALL)]
    return plain([[inside]], (width,), (("BACKGROUND", (0, 0), (-1, -1), WASH),), pad=9)
