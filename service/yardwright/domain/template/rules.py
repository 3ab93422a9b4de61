"""Reading what goes with the members: glue-ups, joints, hardware, operations, assembly and checks."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from .model import AssemblyStep, Caution, CheckRule, GlueUp, HardwareRule, Joint, OperationRule
from .table import MOST_TEXT, Table, meant

FASTENINGS = ("screws", "lags", "bolts", "staples", "nails", "glue", "none")
GLUE_UPS = ("edge", "face", "L")
MOST_ENTRIES = 24        # lengths, values or words of one piece of hardware or one check

Kinds = Mapping[str, str]


def matching(patterns: Iterable[str]) -> Callable[[str], bool]:
    """Whether a member's name is among patterns; ``*`` at the end of one stands for any ending.

    >>> named = matching(["Front leg*", "Seat"])
    >>> named("Front leg wide strip"), named("Seat"), named("Seat board")
    (True, True, False)
    """
    whole = {p for p in patterns if not p.endswith("*")}
    begins = tuple(p[:-1] for p in patterns if p.endswith("*"))
    return lambda name: name in whole or name.startswith(begins)


@dataclass(frozen=True, slots=True)
class Called:
    """What the members are called; whether a pattern names any is found without going through them all."""

    names: Sequence[str]
    known: frozenset[str]
    in_order: Sequence[str]

    @classmethod
    def of(cls, names: Sequence[str]) -> Called:
        return cls(names, frozenset(names), sorted(names))

    def has(self, pattern: str) -> bool:
        """The same rule as ``matching``."""
        if not pattern.endswith("*"):
            return pattern in self.known
        at = bisect_left(self.in_order, pattern[:-1])
        return at < len(self.in_order) and self.in_order[at].startswith(pattern[:-1])


def _patterns(row: Table, key: str, called: Called, needed: bool = True) -> tuple[str, ...]:
    patterns = row.words(key)
    if needed and not patterns:
        row.fault(key, "must name at least one member")
    for p in patterns:
        if not called.has(p):
            row.fault(key, f"no member '{p}'{meant(p.rstrip('*'), called.names)}")
    return patterns


def _few(row: Table, key: str, names: Iterable[str]) -> list[str]:
    found = list(names)
    if len(found) > MOST_ENTRIES:
        row.fault(key, f"has more than {MOST_ENTRIES} entries")
    return found[:MOST_ENTRIES]


def _words(row: Table) -> dict[str, str]:
    inner = row.table("words")
    plain = {key: value for key, value in inner.data.items() if isinstance(value, str | int | float)}
    for key in inner.data.keys() - plain.keys():
        inner.fault(key, "must be a text")
    return {key: str(plain[key])[:MOST_TEXT] for key in _few(row, "words", plain)}


def read_glue_ups(top: Table, called: Called) -> tuple[GlueUp, ...]:
    """Strips that become one blank."""
    found = []
    for row in top.tables("glue_ups"):
        found.append(GlueUp(row.text("name"), row.one_of("kind", GLUE_UPS), _patterns(row, "members", called),
                            row.truth("matched", False), row.pointer))
        row.done()
    return tuple(found)


def read_joints(top: Table, kinds: Kinds, called: Called) -> tuple[Joint, ...]:
    """Joints: who meets whom, and what holds them."""
    found = []
    for row in top.tables("joints"):
        joint = Joint(
            row.text("name"), _patterns(row, "of", called), _patterns(row, "to", called),
            row.one_of("fasten", FASTENINGS), row.formula_or_none("per_contact", kinds, "number"),
            row.formula_or_none("spacing", kinds, "length"), row.truth("glue", False),
            row.formula_or_none("may_share", kinds, "length"), row.formula_or_none("when", kinds, "truth"),
            row.pointer)
        counted = joint.per_contact is not None or joint.spacing is not None
        if joint.fasten in FASTENINGS and joint.fasten not in ("glue", "none") and not counted:
            row.fault("", f"say how many {joint.fasten}: per_contact or spacing")
        row.done()
        found.append(joint)
    return tuple(found)


def read_hardware(top: Table, kinds: Kinds) -> tuple[HardwareRule, ...]:
    """Bought things. ``size`` is a table of lengths; ``length`` alone is short for it."""
    found = []
    for row in top.tables("hardware"):
        sizes = row.table("size")
        size = {name: sizes.formula(name, kinds) for name in _few(row, "size", sizes.data)}
        if row.has("length"):
            size["length"] = row.formula("length", kinds, "length")
        words = _words(row)
        found.append(HardwareRule(
            row.text("name"), row.text("kind"), row.formula("count", kinds, "number", "1"), size, words,
            row.text("operation", ""), row.formula_or_none("when", kinds, "truth"), row.pointer))
        row.done()
    return tuple(found)


def read_operations(top: Table, kinds: Kinds) -> tuple[OperationRule, ...]:
    """Work that geometry does not show."""
    found = []
    for row in top.tables("operations"):
        found.append(OperationRule(
            row.text("name"), row.text("standard"), row.formula("count", kinds, "number", "1"),
            row.formula_or_none("when", kinds, "truth"), row.pointer))
        row.done()
    return tuple(found)


def read_assembly(top: Table, kinds: Kinds, called: Called,
                  joined: Sequence[str]) -> tuple[AssemblyStep, ...]:
    """The order of putting together; ``called`` are the members' names, ``joined`` the joints'."""
    found = []
    for row in top.tables("assembly"):
        made = row.words("joints")
        for name in made:
            if name not in joined:
                row.fault("joints", f"no joint '{name}'{meant(name, joined)}")
        found.append(AssemblyStep(row.text("text"), _patterns(row, "members", called, needed=False),
                                  row.formula_or_none("when", kinds, "truth"), made, row.text("makes", ""),
                                  row.truth("on_site", False)))
        row.done()
    return tuple(found)


def read_cautions(top: Table, kinds: Kinds) -> tuple[Caution, ...]:
    """What the customer is told: a text, or ``{text = ..., when = ...}`` by dimensions and choices."""
    rows = top.take("cautions", [])
    found = []
    for row in Table({"cautions": [r if isinstance(r, Mapping) else {"text": r} for r in rows]
                      if isinstance(rows, list) else rows}, top.pointer, top.faults).tables("cautions"):
        found.append(Caution(row.text("text"), row.formula_or_none("when", kinds, "truth")))
        row.done()
    return tuple(found)


def read_checks(top: Table, kinds: Kinds, called: Called) -> tuple[CheckRule, ...]:
    """Checks asked for: text entries under ``words`` stay words, every other entry is a formula."""
    found = []
    for row in top.tables("checks"):
        rule, when = row.text("rule"), row.formula_or_none("when", kinds, "truth")
        members = _patterns(row, "members", called, needed=False)
        words = _words(row)
        rest = _few(row, "", [key for key in row.data if key not in row.taken])
        values = {key: row.formula(key, kinds) for key in rest}
        found.append(CheckRule(rule, values, words, members, when, row.pointer))
        row.done()
    return tuple(found)
