"""What every schema shares: unknown members refused with a near miss, faults by JSON Pointer."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from typing import Any

from marshmallow import RAISE, Schema, ValidationError, fields, post_load

from ...domain.errors import Fault, Refused
from ..reading import MOST_FAULTS, escaped

UNKNOWN = "Unknown field."
WORDING = {
    "required": "this must be given",
    "null": "null says nothing; leave the member out instead",
    "type": "this must be an object",
}


class BadShape(Refused):
    """What was sent does not have the members and values of the contract."""

    code = "bad-shape"
    title = "What was sent breaks the contract"


class Record(Schema):
    """A JSON object with known members; ``makes`` is the domain record it becomes."""

    class Meta:
        unknown = RAISE

    makes: Any = None
    error_messages: Mapping[str, str] = {"type": WORDING["type"], "unknown": UNKNOWN}

    def on_bind_field(self, field_name: str, field_obj: fields.Field[Any]) -> None:
        field_obj.error_messages = {**field_obj.error_messages, **WORDING}

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> Any:
        return self.makes(**data) if self.makes else data


def load(schema: Schema, value: Any) -> Any:
    """The domain record in ``value``; BadShape with a pointer for each fault."""
    try:
        return schema.load(value)
    except ValidationError as error:
        faults = [Fault(pointer, detail) for pointer, detail in _faults(error.messages, schema, "")]
        raise BadShape(*faults[:MOST_FAULTS]) from None


def _faults(messages: Any, schema: Any, pointer: str) -> Iterator[tuple[str, str]]:
    if isinstance(messages, str):
        yield pointer, messages
    elif isinstance(messages, list):
        for inner in messages:
            yield from _faults(inner, schema, pointer)
    elif isinstance(messages, Mapping):
        for name, inner in messages.items():
            yield from _member(name, inner, schema, pointer)


def _member(name: Any, messages: Any, schema: Any, pointer: str) -> Iterator[tuple[str, str]]:
    below = pointer if name == "_schema" else f"{pointer}/{escaped(str(name))}"
    if messages == [UNKNOWN]:
        yield below, near_miss(str(name), _names(schema))
    else:
        yield from _faults(messages, schema if isinstance(name, int) else _inner(schema, name), below)


def near_miss(name: str, known: list[str], what: str = "member") -> str:
    """"there is no member 'itmes'; did you mean 'items'?", or the list where nothing is near."""
    shown = name[:40]
    close = get_close_matches(shown, known, 1, 0.6)
    hint = f"did you mean {close[0]!r}?" if close else "known here: " + ", ".join(sorted(known)[:30])
    return f"there is no {what} {shown!r}; {hint}"


def _names(schema: Any) -> list[str]:
    return [f.data_key or n for n, f in schema.load_fields.items()] if isinstance(schema, Schema) else []


def _inner(schema: Any, name: Any) -> Any:
    if not isinstance(schema, Schema):
        return None
    field = next((f for n, f in schema.fields.items() if name in (f.data_key, n)), None)
    while isinstance(field, fields.List):
        field = field.inner
    return field.schema if isinstance(field, fields.Nested) else None
