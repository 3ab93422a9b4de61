"""Our own marshmallow fields: no wider than the published contract.

Each field carries ``shape``, the JSON Schema that describe.py publishes for it.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

from marshmallow import ValidationError, fields


class Ours(fields.Field[Any]):
    """A field with a published shape."""

    shape: Mapping[str, Any] = {}


class Made(Ours):
    """A plain value worked out from the whole record."""

    def __init__(self, pick: Callable[[Any], Any], shape: Mapping[str, Any], **more: Any) -> None:
        super().__init__(**more)
        self.pick, self.shape = pick, shape

    def get_value(self, obj: Any, attr: str, accessor: Any = None, default: Any = None) -> Any:
        return self.pick(obj)


class Picked(fields.Nested):
    """A nested record, or several, found by a function of the whole record."""

    def __init__(self, nested: Any, pick: Callable[[Any], Any], many: bool = False) -> None:
        super().__init__(nested, many=many)
        self.pick = pick

    def get_value(self, obj: Any, attr: str, accessor: Any = None, default: Any = None) -> Any:
        return self.pick(obj)


class Text(Ours):
    """One line of text, NFC, trimmed; ``lines`` allows several."""

    shape: Mapping[str, Any] = {"type": "string"}

    def __init__(self, most: int = 120, lines: bool = False, least: int = 0, **more: Any) -> None:
        super().__init__(**more)
        self.most, self.least, self.lines = most, least, lines
        self.shape = {"type": "string", "maxLength": most} | ({"minLength": least} if least else {})

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> str:
        if not isinstance(value, str):
            raise ValidationError("this must be text in quotes")
        clean = unicodedata.normalize("NFC", value).replace("\r\n", "\n").replace("\r", "\n").strip()
        if len(clean) > self.most:
            raise ValidationError(f"{len(clean)} characters; at most {self.most} fit on the paper")
        if len(clean) < self.least:
            raise ValidationError("this must not be empty")
        return clean if self.lines else re.sub(r"\s", " ", clean)


class Word(Ours):
    """One word of a fixed list; a near miss is named."""

    def __init__(self, words: tuple[str, ...], **more: Any) -> None:
        super().__init__(**more)
        self.words = words
        self.shape = {"type": "string", "enum": list(words)}

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> str:
        if isinstance(value, str) and value in self.words:
            return value
        raise ValidationError(f"{str(value)[:40]!r} is not one of: " + ", ".join(w for w in self.words if w))


class Whole(Ours):
    """A whole number; 3.0 is one (as JSON Schema has it), 3.7, "3" and true are not."""

    def __init__(self, least: int, most: int, **more: Any) -> None:
        super().__init__(**more)
        self.least, self.most = least, most
        self.shape = {"type": "integer", "minimum": least, "maximum": most}

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> int:
        if isinstance(value, bool) or not isinstance(value, int | float) or value != int(value):
            raise ValidationError("this must be a whole number")
        if not self.least <= value <= self.most:
            raise ValidationError(f"this must be from {self.least} to {self.most}")
        return int(value)


class Number(Ours):
    """A number within bounds; text and true are none."""

    def __init__(self, least: float, most: float, digits: int | None = None, **more: Any) -> None:
        super().__init__(**more)
        self.least, self.most, self.digits = least, most, digits
        self.shape = {"type": "number", "minimum": least, "maximum": most}

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise ValidationError("this must be a number")
        if not self.least <= value <= self.most:
            raise ValidationError(f"this must be from {self.least:g} to {self.most:g}")
        return float(value)

    def _serialize(self, value: Any, attr: Any, obj: Any, **_: Any) -> float | None:
        return value if value is None or self.digits is None else round(float(value), self.digits)


class Truth(Ours):
    """true or false, nothing that merely sounds like it."""

    shape: Mapping[str, Any] = {"type": "boolean"}

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> bool:
        if not isinstance(value, bool):
            raise ValidationError("this must be true or false")
        return value


class Day(Ours):
    """A calendar day as ISO 8601 writes it, 2026-05-02."""

    shape: Mapping[str, Any] = {"type": "string", "format": "date",
                                "pattern": r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> date:
        try:
            if isinstance(value, str) and re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", value):
                day = date.fromisoformat(value)
                if 2000 <= day.year <= 2200:
                    return day
        except ValueError:
            pass
        raise ValidationError("this must be a day between 2000 and 2200, written 2026-05-02")

    def _serialize(self, value: Any, attr: Any, obj: Any, **_: Any) -> str | None:
        return None if value is None else str(value.isoformat())


class Words(Ours):
    """Plain words by name: choices by id."""

    shape: Mapping[str, Any] = {"type": "object", "maxProperties": 40,
                                "additionalProperties": {"type": "string", "maxLength": 80}}

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> dict[str, str]:
        return by_name(value, Text(80).deserialize)

    def _serialize(self, value: Any, attr: Any, obj: Any, **_: Any) -> dict[str, str]:
        return dict(value)


def by_name(value: Any, read: Any) -> dict[str, Any]:
    if not isinstance(value, Mapping):
        raise ValidationError("this must be an object of names and values")
    if len(value) > 40:
        raise ValidationError("more than 40 names")
    found, faults = {}, {}
    for name, inner in value.items():
        try:
            found[name] = read(inner)
        except ValidationError as error:
            faults[name] = error.messages
    if faults:
        raise ValidationError(faults)
    return found


class Many(fields.List):
    """A bounded list that becomes a tuple."""

    def __init__(self, inner: Any, most: int = 0, **more: Any) -> None:
        super().__init__(inner, **more)
        self.most = most

    def _deserialize(self, value: Any, attr: Any, data: Any, **more: Any) -> Any:
        if not isinstance(value, list):
            raise ValidationError("this must be a list")
        if self.most and len(value) > self.most:
            raise ValidationError(f"{len(value)} entries; at most {self.most}")
        return tuple(super()._deserialize(value, attr, data, **more))
