"""Lengths, money, falls and distances in JSON: text with a unit in, the domain's own numbers inside.

Which currency money is in, and in which units lengths are written, is the ``Voice`` of the request.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from marshmallow import ValidationError
from marshmallow.experimental.context import Context

from ..domain import measure
from ..domain.errors import Refused
from ..domain.money import Money, minor_digits, money
from ..domain.shop import Shop
from . import rates
from .fields import Ours, by_name

MOST_MM = 1_000_000.0


@dataclass(frozen=True, slots=True)
class Speaking:
    """For whom a request is read and an answer written: the shop, the job's units, today's date."""

    shop: Shop
    units: str
    today: date


Voice = Context[Speaking]


class Length(Ours):
    """In: text as people write it, or {"mm": number}. Out: both. A bare number is refused."""

    shape: Mapping[str, Any] = {"$ref": "#/components/schemas/Length"}

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> int:
        return read_length(value)

    def _serialize(self, value: Any, attr: Any, obj: Any, **_: Any) -> dict[str, Any] | None:
        return None if value is None else written(value)


class Written(Length):
    """A length that is only ever written."""

    shape: Mapping[str, Any] = {"$ref": "#/components/schemas/WrittenLength"}


def read_length(value: Any) -> int:
    """Nanometres from a contract length; ValidationError says what would be right."""
    if isinstance(value, str):
        try:
            return measure.read(value, None).nm
        except Refused as refused:
            raise ValidationError("; ".join(fault.detail for fault in refused.faults)) from None
    if isinstance(value, Mapping):
        mm = value.get("mm")
        if set(value) <= {"mm", "text"} and isinstance(mm, int | float) and not isinstance(mm, bool):
            if not 0 <= mm <= MOST_MM:
                raise ValidationError(f"a length here is from 0 to {MOST_MM:.0f} mm")
            return measure.from_mm(mm)
        raise ValidationError('a length is text with its unit or {"mm": number}')
    if isinstance(value, int | float) and not isinstance(value, bool):
        raise ValidationError(f'a bare number: "{value:g} in" or "{value:g} mm"?')
    raise ValidationError('a length is text with its unit, such as "44 in" or "1120 mm"')


def written(nm: int) -> dict[str, Any]:
    """A length as the contract gives it: millimetres for programs, text for people."""
    return {"mm": measure.to_mm(nm), "text": measure.Writer(Voice.get().units).length(nm)}


class Lengths(Ours):
    """Lengths by name."""

    shape: Mapping[str, Any] = {"type": "object", "maxProperties": 40, "additionalProperties": Length.shape}

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> dict[str, int]:
        return by_name(value, read_length)

    def _serialize(self, value: Any, attr: Any, obj: Any, **_: Any) -> dict[str, Any] | None:
        return None if value is None else {name: written(nm) for name, nm in value.items()}


class WrittenLengths(Lengths):
    shape: Mapping[str, Any] = {"type": "object", "additionalProperties": Written.shape}


class Amount(Ours):
    """Money as decimal text in the shop's currency, "1234.50"."""

    shape: Mapping[str, Any] = {"type": "string", "pattern": r"^-?[0-9]{1,9}(\.[0-9]{1,3})?$"}

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> Money:
        if not isinstance(value, str) or not re.fullmatch(r"-?[0-9]{1,9}(\.[0-9]{1,3})?", value):
            raise ValidationError('money is text with digits and a point, such as "120.00"')
        currency = Voice.get().shop.prices.currency
        if -Decimal(value).as_tuple().exponent > minor_digits(currency):  # type: ignore[operator]
            raise ValidationError(f"{currency} has {minor_digits(currency)} decimals")
        return money(value, currency)

    def _serialize(self, value: Any, attr: Any, obj: Any, **_: Any) -> str | None:
        return None if value is None else value.text()


class MinorAmount(Amount):
    """Whole minor units of the shop's currency, as the cutting planner counts them."""

    def _serialize(self, value: Any, attr: Any, obj: Any, **_: Any) -> str | None:
        return Money(int(value), Voice.get().shop.prices.currency).text()


class Share(Ours):
    """A share of one as decimal text, "0.05"."""

    shape: Mapping[str, Any] = {"type": "string", "pattern": r"^(0(\.[0-9]{1,6})?|1(\.0{1,6})?)$"}

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> str:
        if not isinstance(value, str) or not re.fullmatch(r"0(\.[0-9]{1,6})?|1(\.0{1,6})?", value):
            raise ValidationError('a share is text from "0" to "1", such as "0.05" for 5 %')
        return value


class Fall(Ours):
    """A fall: "1/4 in per ft", "2 %", "1:48", or rise over run as a number."""

    shape: Mapping[str, Any] = {"oneOf": [{"type": "string", "maxLength": 40},
                                          {"type": "number", "minimum": -1, "maximum": 1}]}

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> float:
        try:
            return rates.read_fall(value)
        except Refused as refused:
            raise ValidationError("; ".join(fault.detail for fault in refused.faults)) from None


class Distance(Ours):
    """A distance by road, "12 km" or "8 mi"; kept in kilometres."""

    shape: Mapping[str, Any] = {"type": "string", "maxLength": 20}

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> float:
        try:
            return rates.read_distance(value)
        except Refused as refused:
            raise ValidationError("; ".join(fault.detail for fault in refused.faults)) from None
