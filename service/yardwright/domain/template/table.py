"""One table of a template while it is read: every fault is kept with its pointer, none hides the next."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from .. import formula, measure
from ..errors import BadFormula, BadLength, BadTemplate, Fault
from ..formula.model import Formula

MOST_ROWS = 200          # of anything in one list: member rules, joints, checks
MOST_TEXT = 600
MOST_FAULTS = 40         # told of one template; reading stops there
MOST_SHOWN = 120         # letters of a key in a pointer
MOST_DIGITS = 15         # of a whole number
WORDS_AND_MARKS = 8_000  # of all formulas of one template together

Kinds = Mapping[str, str]
NOTHING = Formula("0", 0, "number")
_WORD = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")


def meant(name: str, known: Iterable[str]) -> str:
    """``; did you mean 'Seat board'?`` when a known name is near, else the known names when few."""
    names = list(known)
    if near := formula.nearest(name, names):
        return f"; did you mean '{near[0]}'?"
    return f"; known: {', '.join(names)}" if 0 < len(names) <= 12 else ""


class Indexed(dict[str, str]):
    """Names with the indices of one member's repeats added; ``base`` are those without."""

    def __init__(self, base: Kinds) -> None:
        super().__init__(base)
        self.base, self.own = base, set[str]()

    def index(self, name: str) -> None:
        """One more index."""
        self[name] = "number"
        self.own.add(name)


class Faults(list[Fault]):
    """What is wrong so far. ``broken`` holds names whose formula is wrong: what uses them says no more.

    ``budget`` bounds the words and marks of all formulas, each text counted once; the fortieth fault ends the
    reading. ``kept`` are formulas read already, by text and by how many ``names`` were known then.
    """

    def __init__(self) -> None:
        super().__init__()
        self.broken: set[str] = set()
        self.names: Kinds = {}
        self.kept: dict[tuple[str, int], Formula] = {}
        self.budget = formula.Budget(WORDS_AND_MARKS)

    def append(self, fault: Fault) -> None:
        """Keeps a fault; BadTemplate with all of them when there are too many to go on."""
        super().append(fault)
        if len(self) >= MOST_FAULTS:
            raise BadTemplate(*self)


class Table:
    """A table's entries taken one by one; ``done`` reports what nobody took."""

    def __init__(self, data: Any, pointer: str, faults: Faults) -> None:
        self.pointer, self.faults = pointer, faults
        self.data: Mapping[str, Any] = data if isinstance(data, Mapping) else {}
        self.taken: set[str] = set()
        if not isinstance(data, Mapping):
            self.fault("", "must be a table")

    def at(self, key: str | int) -> str:
        """The pointer of an entry, escaped as RFC 6901 says."""
        step = str(key).replace("~", "~0").replace("/", "~1")
        return f"{self.pointer}/{step[:MOST_SHOWN]}"

    def fault(self, key: str, detail: str) -> None:
        self.faults.append(Fault(self.at(key) if key else self.pointer, detail))

    def has(self, key: str) -> bool:
        return key in self.data

    def take(self, key: str, default: Any = None) -> Any:
        self.taken.add(key)
        return self.data.get(key, default)

    def text(self, key: str, default: str | None = None) -> str:
        """A line of text; needed unless it has a default."""
        value = self.take(key, default)
        if value is None:
            self.fault(key, "is missing")
            return ""
        if not isinstance(value, str) or len(value) > MOST_TEXT:
            self.fault(key, f"must be text of at most {MOST_TEXT} characters")
            return ""
        return value

    def one_of(self, key: str, known: Iterable[str], default: str | None = None) -> str:
        """A word from a list."""
        names = list(known)
        value = self.text(key, default)
        if value not in names and value != default and (value or self.data.get(key) == ""):
            self.fault(key, f"'{value}' is not known here{meant(value, names)}")
        return value

    def number(self, key: str, default: int) -> int:
        """A whole number."""
        value = self.take(key, default)
        if isinstance(value, bool) or not isinstance(value, int) or abs(value) >= 10**MOST_DIGITS:
            self.fault(key, "must be a whole number")
            return default
        return value

    def truth(self, key: str, default: bool) -> bool:
        """true or false."""
        value = self.take(key, default)
        if not isinstance(value, bool):
            self.fault(key, "must be true or false")
            return default
        return value

    def words(self, key: str) -> tuple[str, ...]:
        """A list of texts, empty when it is not there."""
        value = self.take(key, [])
        if isinstance(value, str):
            value = [value]
        rows = self._rows(key, value)
        if not all(isinstance(v, str) and len(v) <= MOST_TEXT for v in rows):
            self.fault(key, "must be a list of texts")
            return ()
        return tuple(rows)

    def length(self, key: str) -> int:
        """A length as people write it, with its unit."""
        return self._length(self.take(key), self.at(key))

    def lengths(self, key: str) -> dict[str, int]:
        """A length by unit system: ``{in = "44 in", mm = "1120 mm"}``, or one for both."""
        value = self.take(key)
        if isinstance(value, str):
            nm = self._length(value, self.at(key))
            return {"in": nm, "mm": nm}
        inner = Table(value, self.at(key), self.faults)
        found = {unit: inner.length(unit) for unit in ("in", "mm")}
        inner.done()
        return found

    def formula(self, key: str, names: Kinds, expect: str | None = None,
                default: str | None = None) -> Formula:
        """A formula, checked; needed unless it has a default."""
        return self.formula_of(self.take(key, default), self.at(key), names, expect)

    def value(self, name: str, kinds: dict[str, str]) -> Formula:
        """A named value's formula; a wrong one is told once, here, and not again where it is used."""
        made = self.formula(name, kinds)
        if made is NOTHING:
            self.faults.broken.add(name)
        return made

    def formula_or_none(self, key: str, names: Kinds, expect: str | None = None) -> Formula | None:
        """A formula, or None when the entry is not there."""
        return self.formula(key, names, expect) if self.has(key) else None

    def formula_of(self, text: Any, where: str, names: Kinds, expect: str | None) -> Formula:
        """A formula's text checked against the names it may use."""
        if text is None:
            self.faults.append(Fault(where, "is missing"))
            return NOTHING
        if isinstance(text, int | float) and not isinstance(text, bool) and abs(text) < 10**MOST_DIGITS:
            text = str(text)
        if not isinstance(text, str):
            self.faults.append(Fault(where, "must be a formula, written as text"))
            return NOTHING
        if self.faults.broken and not self.faults.broken.isdisjoint(_WORD.findall(text)):
            return NOTHING
        if isinstance(names, Indexed) and names.own.isdisjoint(_WORD.findall(text)):
            names = names.base
        try:
            return self._read(text, names, where, expect)
        except BadFormula as trouble:
            for fault in trouble.faults:
                self.faults.append(fault)
            return NOTHING

    def _read(self, text: str, names: Kinds, where: str, expect: str | None) -> Formula:
        """The formula; the same text among the same names is read once."""
        if names is not self.faults.names:
            return formula.read(text, names, where, expect, self.faults.budget)
        key = (text, len(names))
        known = self.faults.kept.get(key)
        if known is not None and (expect is None or known.kind == expect):
            self.faults.budget.steps -= 1
            return Formula(text, known.tree, known.kind, where, known.nodes)
        self.faults.kept[key] = made = formula.read(text, names, where, expect, self.faults.budget)
        return made

    def formulas(self, key: str, names: Kinds, expect: str | None, count: int) -> tuple[Formula, ...]:
        """A list of exactly ``count`` formulas."""
        rows = self._rows(key, self.take(key, []))
        if len(rows) != count:
            self.fault(key, f"must be a list of {count} formulas")
            return (NOTHING,) * count
        return tuple(self.formula_of(row, f"{self.at(key)}/{i}", names, expect) for i, row in enumerate(rows))

    def table(self, key: str) -> Table:
        """A table within; empty when it is not there."""
        return Table(self.take(key, {}), self.at(key), self.faults)

    def tables(self, key: str) -> list[Table]:
        """A list of tables."""
        rows = self._rows(key, self.take(key, []))
        return [Table(row, f"{self.at(key)}/{i}", self.faults) for i, row in enumerate(rows)]

    def named(self, key: str) -> dict[str, Table]:
        """Tables by name: ``[dimensions.length]``."""
        inner = self.table(key)
        if len(inner.data) > MOST_ROWS:
            self.fault(key, f"has more than {MOST_ROWS} entries")
            return {}
        return {name: Table(row, inner.at(name), self.faults) for name, row in inner.data.items()}

    def done(self) -> None:
        """Reports every entry that nobody took, with the name that was probably meant."""
        for key in self.data:
            if key not in self.taken:
                self.fault(key, f"'{key[:MOST_SHOWN]}' is not known here{meant(key, self.taken)}")

    def _rows(self, key: str, value: Any) -> list[Any]:
        if not isinstance(value, list | tuple):
            self.fault(key, "must be a list")
            return []
        if len(value) > MOST_ROWS:
            self.fault(key, f"has {len(value)} entries, more than the {MOST_ROWS} allowed")
            return []
        return list(value)

    def _length(self, value: Any, where: str) -> int:
        if not isinstance(value, str):
            self.faults.append(Fault(where, 'must be a length with its unit, as "44 in" or "1120 mm"'))
            return 0
        try:
            return measure.read(value, None).nm
        except BadLength as trouble:
            for fault in trouble.faults:
                self.faults.append(Fault(where, fault.detail))
            return 0
