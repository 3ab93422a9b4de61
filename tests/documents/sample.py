"""A quote as the service answers it, and solids to draw, all of an invented shop and customer."""

from __future__ import annotations

import copy
from math import cos, radians, sin
from typing import Any

INCH_MM = 25.4
Ring = list[tuple[float, float, float]]


def len_in(inches: float, text: str) -> dict[str, Any]:
    return {"mm": round(inches * INCH_MM, 3), "text": text}


def box(x0: float, y0: float, z0: float, x1: float, y1: float, z1: float) -> list[Ring]:
    """The six faces of a box, each counter-clockwise from outside."""
    v = [(x, y, z) for x in (x0, x1) for y in (y0, y1) for z in (z0, z1)]
    return [[v[i] for i in face] for face in
            ((0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3))]


def raked(rings: list[Ring], degrees: float, y: float, z: float) -> list[Ring]:
    """Turned about a line along the length, through (y, z)."""
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return [[(px, y + (py - y) * c - (pz - z) * s, z + (py - y) * s + (pz - z) * c) for px, py, pz in ring]
            for ring in rings]


def bench() -> list[list[Ring]]:
    """A bench of boards with a raked back, 1120 mm long."""
    long, deep, high = 1120.0, 560.0, 430.0
    members = [box(x, y, 0, x + 90, y + 90, high - 20) for x in (0, long - 90) for y in (0, deep - 90)]
    members += [box(20, y, 40 + 92 * r, long - 20, y + 18, 129 + 92 * r)
                for y in (20, deep - 38) for r in range(4)]
    members += [box(x, 38, 40 + 92 * r, x + 18, deep - 38, 129 + 92 * r)
                for x in (20, long - 38) for r in range(4)]
    members += [box(0, -10 + 94 * r, high - 20, long, 79 + 94 * r, high) for r in range(6)]
    members += [raked(box(40 + 130 * r, 500, high, 150 + 130 * r, 520, high + 380), -8, 500, high)
                for r in range(8)]
    return members


FINDINGS: list[dict[str, Any]] = [
    {"rule": "seat height", "level": "ok", "title": "Seat height", "detail": "Comfortable for most adults.",
     "measured": "17 in", "limit": "15 to 19 in", "source": "common practice", "mend": ""},
    {"rule": "board span", "level": "ok", "title": "Seat boards carry two people", "detail": "",
     "measured": "1/16 in sag", "limit": "1/8 in", "source": "Wood Handbook ch. 9", "mend": ""},
    {"rule": "gas meter", "level": "caution", "title": "Close to the gas meter",
     "detail": "The bench stands 8 in from the gas meter. Ask the supplier before it is set up.",
     "measured": "8 in", "limit": "12 in", "source": "common practice", "mend": "Move it 4 in to the left."},
    {"rule": "lid", "level": "note", "title": "Heavy lid", "detail": "The lid weighs 24 lb; a stay holds it.",
     "measured": "24 lb", "limit": "", "source": "", "mend": ""},
    {"rule": "ground", "level": "not checked", "title": "Ground under the legs",
     "detail": "Nobody measured how much the ground falls.", "measured": "", "limit": "", "source": "",
     "mend": "Lay a level along and across, and send the fall."},
]

QUOTE: dict[str, Any] = {
    "reference": "2026-0117", "date": "2026-11-25", "units": "in", "seal": "9f2c4b7a11d0e8c35a77",
    "versions": {"service": "0.1.0", "prices": "demo-2026-11"}, "valid_until": "2026-12-16",
    "demonstration": True,
    "shop": {"name": "Fernhollow Joinery", "address": ["4 Millrace Lane", "Fernhollow"],
             "phone": "555 0134", "email": "bench@fernhollow.example", "tax_number": "FH-2231"},
    "customer": {"name": "Ilse Brandt", "address": "12 Weir Street, Fernhollow", "phone": "555 0171",
                 "email": "ilse@weir.example"},
    "site": {"kind": "between walls", "walls": [{"side": "back", "readings": [
        {"value": {"mm": 1168.4, "text": "46 in"}, "at_height": {"mm": 0, "text": "0 in"}},
        {"value": {"mm": 1155.7, "text": "45 1/2 in"}, "at_height": {"mm": 914.4, "text": "36 in"}}],
        "obstructions": [{"kind": "gas meter", "from": {"mm": 762, "text": "30 in"},
                          "to": {"mm": 1016, "text": "40 in"},
                          "projection": {"mm": 152.4, "text": "6 in"}}]}]},
    "items": [{
        "template": "storage-bench", "template_name": "Storage bench", "revision": 3,
        "dimensions": {"length": len_in(44, "44 in"), "depth": len_in(22, "22 in"),
                       "seat_height": len_in(17, "17 in")},
        "overall": {"length": len_in(44, "44 in"), "depth": len_in(23.5, "23 1/2 in"),
                    "height": len_in(31.75, "31 3/4 in")},
        "choices": {"back": "curved", "timber": "western-red-cedar", "finish": "clear-oil"},
        "choice_labels": {"Back": "Curved top", "Timber": "Western red cedar", "Finish": "Clear oil"},
        "included": ["A bench with a dry box under the seat, the lid hinged at the back",
                     "A lid stay that holds the lid open on its own",
                     "Two coats of clear oil, end grain sealed",
                     "All screws and hinges in stainless steel"],
        "quantity": 1,
        "fit": {"fits": True, "verdict": "It fits the space as measured.", "clearances": [
            {"side": "along", "clearance": len_in(1.25, "1 1/4 in"), "needed": len_in(0.5, "1/2 in"),
             "binding": "back wall at 36 in high"},
            {"side": "front", "clearance": len_in(40, "40 in"), "needed": len_in(36, "36 in"),
             "binding": "depth reading 1"}],
            "positions": [{"from": len_in(0.25, "1/4 in"), "to": len_in(1.25, "1 1/4 in")}],
            "largest": {"length": len_in(45, "45 in")}, "best": None,
            "uncertainty": len_in(0.0625, "1/16 in"),
            "way_in": {"fits": True, "detail": "The gate, 34 in wide, lets it through upright."},
            "findings": []},
        "parts": [{"mark": "A1", "name": "Seat board", "count": 5, "hand": "", "timber": "Western red cedar",
                   "section": "1x6", "length": len_in(44, "44 in"), "width": len_in(5.5, "5 1/2 in"),
                   "thickness": len_in(0.75, "3/4 in"), "made_of": "", "shape": [], "notes": []}],
        "weight_kg": 38.4, "price": "1140.00", "hours": 11.5, "findings": FINDINGS,
        "cautions": ["Lids trap fingers: open by the handle, and do not let children close it."],
    }],
    "stock": [], "hardware": [], "labour": {"hours": 11.5, "elapsed_days": 4},
    "price": {"currency": "USD", "lines": [
        {"kind": "item", "text": "Storage bench, 44 in long, western red cedar", "quantity": 1,
         "unit": "1140.00", "amount": "1140.00", "taxed": True},
        {"kind": "extra", "text": "Engraved name plate", "quantity": 1, "unit": "45.00", "amount": "45.00",
         "taxed": True},
        {"kind": "delivery", "text": "Delivery and setting up, 12 km", "quantity": 1, "unit": "85.00",
         "amount": "85.00", "taxed": False},
        {"kind": "discount", "text": "Neighbour's discount", "quantity": 1, "unit": "-59.25",
         "amount": "-59.25", "taxed": True}],
        "net": "1210.75", "tax": [{"name": "Sales tax", "rate": "0.0725", "base": "1125.75",
                                   "amount": "81.62", "included": False}],
        "total": "1292.37", "deposit": "430.79"},
    "findings": [], "overrides": [],
    "terms": ["Made to the dimensions above; a change after the deposit is priced anew.",
              "Ready 3 to 5 weeks after the deposit.", "Balance on delivery."],
    "cautions": ["Local building and safety codes and licensed trades go before anything printed here.",
                 "Sawdust of cedar irritates: wear a mask when sanding."],
    "working": [],
}


def quote(**changes: Any) -> dict[str, Any]:
    """The sample, its top-level entries replaced by ``changes``."""
    return {**copy.deepcopy(QUOTE), **changes}


def gross_quote() -> dict[str, Any]:
    """The sample as a shop with VAT in its prices would answer it, in mm and euros."""
    found = quote(units="mm", demonstration=False)
    found["price"] = {"currency": "EUR", "lines": [
        {"kind": "item", "text": "Lagertruhe – ława ogrodowa – Σκαμνί", "quantity": 1, "unit": "1230.00",
         "amount": "1230.00", "taxed": True}],
        "net": "1000.00", "tax": [{"name": "VAT", "rate": "0.23", "base": "1000.00", "amount": "230.00",
                                   "included": True}],
        "total": "1230.00", "deposit": "369.00"}
    return found


def stopped_quote() -> dict[str, Any]:
    """The sample with a stop that the shop answers for in writing."""
    found = quote()
    found["items"][0]["findings"] = [
        {"rule": "exit", "level": "stop", "title": "Blocks the way out",
         "detail": "The bench leaves 22 in beside it; a way out needs 32 in.", "measured": "22 in",
         "limit": "32 in", "source": "ADA 2010, 404.2.3", "mend": "Make it 10 in shorter."}, *FINDINGS]
    found["overrides"] = [{"what": "exit", "to": "accepted",
                           "reason": "The door behind it was bricked up; the owner signed for it."}]
    return found
