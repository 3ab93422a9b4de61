"""Falls and road distances as people write them."""

from __future__ import annotations

import re
from typing import Any

from ..domain import measure
from ..domain.errors import Fault, Refused

KM_PER_MILE = 1.609344          # international mile, exact
MOST_KM = 2000.0


class BadRate(Refused):
    """A fall or a distance that cannot be read."""

    code = "bad-length"


def read_fall(value: Any) -> float:
    """Rise over run from "1/4 in per ft", "2 %", "1:48" or a number; at most 1 (45 degrees)."""
    fall = _fall(value)
    if fall is None or not -1 <= fall <= 1:
        raise BadRate(Fault("", 'a fall is "1/4 in per ft", "2 %", "1:48", or rise over run up to 1'))
    return fall


def _fall(value: Any) -> float | None:
    if isinstance(value, int | float) and not isinstance(value, bool):
        return float(value)
    if not isinstance(value, str) or len(value) > 40:
        return None
    text = value.strip().replace(",", ".")
    if found := re.fullmatch(r"(-?\d{1,3}(?:\.\d{1,3})?) ?%", text):
        return float(found[1]) / 100
    if found := re.fullmatch(r"1 ?: ?(\d{1,4})", text):
        return 1 / int(found[1]) if int(found[1]) else None
    rise, per, run = text.partition(" per ")
    if not per:
        return None
    base = measure.read(run if run[:1].isdigit() else f"1 {run}", None).nm
    return measure.read(rise, None).nm / base if base else None


def read_distance(value: Any) -> float:
    """Kilometres from "12 km" or "8 mi"; a bare number is refused with both candidates."""
    if isinstance(value, int | float) and not isinstance(value, bool):
        raise BadRate(Fault("", f'a bare number: "{value:g} km" or "{value:g} mi"?'))
    found = re.fullmatch(r"(\d{1,5}(?:[.,]\d{1,2})?) ?(km|mi|miles?)", str(value).strip())
    km = float(found[1].replace(",", ".")) * (1.0 if found[2] == "km" else KM_PER_MILE) if found else -1.0
    if not 0 <= km <= MOST_KM:
        raise BadRate(Fault("", f'a distance is text such as "12 km" or "8 mi", up to {MOST_KM:.0f} km'))
    return km
