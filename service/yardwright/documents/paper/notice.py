"""Notices of cancellation for an order signed at the customer's home in the United States, in two copies.

Printed when the shop's terms ask for it. The dates stay open: the order's date is known when it is signed,
and the last day follows from it and from the holidays of that year. 16 CFR 429.1 asks for two completed
forms and bold words of 10 points or more near the signature (seen); the words here are the shop's own and
yield to the rule's and the state's where those prescribe theirs.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from reportlab.platypus import Flowable, HRFlowable, KeepTogether, PageBreak, Spacer

from ..pages.tables import plain
from ..pages.words import BODY, FINE, INK, LABEL, NOTICE, RULE, SMALL, STRONG, TITLE, moment, para

Json = Mapping[str, Any]

_RIGHT = ("You may cancel this order, at no cost and without giving a reason, until midnight of the third "
          "business day after the date of the order. Saturdays count; Sundays and federal holidays do not.")
_BACK = ("If you cancel, everything you paid, signed over or traded in comes back to you within 10 business "
         "days after the shop has your notice. Keep whatever was delivered ready for the shop to fetch, as "
         "good as it came; what the shop has not fetched within 20 days of your notice is yours.")
_YIELDS = ("The law comes before this form: where the federal rule on sales made at home (16 CFR Part 429) "
           "or your state prescribes other words or a longer time, theirs hold. The shop fills in both dates "
           "on both copies and tells you of this right when you sign.")


def notices(quote: Json, signature: Json | None, width: float) -> list[Flowable]:
    """Both copies on a page of their own; nothing where the shop does not ask for them."""
    if quote.get("home_sale_notice") != "us":
        return []
    story: list[Flowable] = [PageBreak()]
    for number in (1, 2):
        story += [KeepTogether(_copy(quote, signature, number, width)), Spacer(0, 12)]
        if number == 1:
            story += [HRFlowable(width="100%", thickness=0.5, color=RULE, dash=(4, 3)), Spacer(0, 12)]
    return story


def _copy(quote: Json, signature: Json | None, number: int, width: float) -> list[Flowable]:
    shop = quote.get("shop") or {}
    where = ", ".join(str(v) for v in (shop.get("name"), *(shop.get("address") or ())) if v)
    signed = moment((signature or {}).get("time"))
    half = (width - 24) / 2
    dates = plain([[_open("Date of the order", half, signed), "", _open("Cancel not later than midnight of",
                                                                         half)]], (half, 24, half))
    sign = plain([[_open("Date", half), "", _open("Customer's signature", half)]], (half, 24, half))
    return [para("Notice of cancellation", TITLE), para(f"Copy {number} of 2", STRONG), Spacer(0, 2),
            para(f"Order {quote.get('reference') or '–'} with {where}", BODY), Spacer(0, 4), dates,
            Spacer(0, 6), para(_RIGHT, NOTICE), Spacer(0, 3), para(_BACK, BODY), Spacer(0, 3),
            para("To cancel, sign and date one copy, or write anything that says the same, and hand it over "
                 f"or send it to {where}, not later than the midnight named above.", BODY),
            Spacer(0, 4), para("I cancel this order.", STRONG), sign, Spacer(0, 4), para(_YIELDS, FINE)]


def _open(label: str, width: float, filled: str = "") -> Flowable:
    """A line to write on, with its label under it."""
    return plain([[para(filled, SMALL)], [para(label, LABEL)]], (width,), (
        ("TOPPADDING", (0, 0), (-1, 0), 10), ("LINEBELOW", (0, 0), (-1, 0), 0.6, INK),
        ("TOPPADDING", (0, 1), (-1, 1), 1)))
