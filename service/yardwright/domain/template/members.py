"""Reading the members of a template: where a blank lies, how its ends are cut, what shape work it gets."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any

from ..formula.model import Formula
from .model import DIRECTIONS, Cut, End, Group, MemberRule, Mirror, Repeat, Role
from .table import MOST_ROWS, Indexed, Table, meant

OVERALL = ("length", "depth", "height")
PLAIN_ENDS = ("square", "level", "plumb")
CUTS = ("round over", "outline", "plane", "pocket", "hole")
EDGES = ("top", "bottom", "front", "back", "left", "right")
MOST_INDICES = 3
MOST_CUTS = 12
MOST_MIRRORS = 3
MOST_POINTS = 40

Kinds = Mapping[str, str]


def read_members(top: Table, kinds: Kinds, roles: tuple[Role, ...],
                 groups: tuple[Group, ...]) -> tuple[MemberRule, ...]:
    """Every member rule, its role, group and neighbours known by name."""
    rows = top.tables("members")
    if not top.data.get("members"):
        top.fault("members", f"must list 1 to {MOST_ROWS} members")
    found: dict[str, None] = {}
    made: list[MemberRule] = []
    for row in rows:
        rule = _member(row, Indexed(kinds) if row.has("repeat") else kinds, roles, groups, found)
        if rule.name in found:
            row.fault("name", f"a second member '{rule.name}'")
        found[rule.name] = None
        made.append(rule)
    return tuple(made)


def _member(row: Table, kinds: Kinds, roles: tuple[Role, ...], groups: tuple[Group, ...],
            earlier: Collection[str]) -> MemberRule:
    name = row.text("name")
    if name[-1:].isdigit() or "*" in name or "/" in name or row.data.get("name") == "":
        row.fault("name", f"'{name[:40]}' must be words that end in no digit and hold no * or /; copies are "
                          "numbered by themselves")
    role = _role(row, roles)
    repeat = tuple(_repeats(row, kinds)) if isinstance(kinds, Indexed) else ()
    start, end = row.formulas("from", kinds, "length", 3), row.formulas("to", kinds, "length", 3)
    rule = MemberRule(
        name=name, role=role,
        group=row.one_of("group", ["fixed", *(g.name for g in groups)], "fixed"),
        start=(start[0], start[1], start[2]), end=(end[0], end[1], end[2]),
        wide=_direction(row, "wide", kinds), thick=_direction(row, "thick", kinds),
        width=row.formula_or_none("width", kinds, "length"),
        thickness=row.formula_or_none("thickness", kinds, "length"),
        ends=_ends(row, kinds, earlier),
        cuts=tuple(_cut(c, kinds) for c in _at_most(MOST_CUTS, row, "cuts")),
        repeat=repeat, mirror=tuple(_mirror(m, kinds) for m in _at_most(MOST_MIRRORS, row, "mirror")),
        when=row.formula_or_none("when", kinds, "truth"),
        grain=row.one_of("grain", ("along", "either"), "along"),
        finish=row.truth("finish", True), where=row.pointer)
    row.done()
    return rule


def _at_most(most: int, row: Table, key: str) -> list[Table]:
    tables = row.tables(key)
    if len(tables) > most:
        row.fault(key, f"has {len(tables)} entries, more than the {most} a member may have")
    return tables[:most]


def _role(row: Table, roles: tuple[Role, ...]) -> str:
    given = [k for k in ("board", "sheet", "roll") if row.has(k)]
    if len(given) != 1:
        row.fault("", "must say one of board, sheet or roll")
        return ""
    name = row.text(given[0])
    known = [r.name for r in roles if r.material == given[0]]
    if name not in known:
        row.fault(given[0], f"no {given[0]} '{name}'{meant(name, known)}")
    return name


def _repeats(row: Table, kinds: Indexed) -> list[Repeat]:
    found = []
    for table in _at_most(MOST_INDICES, row, "repeat"):
        index = table.text("index")
        if index in kinds:
            table.fault("index", f"'{index}' is already a name")
        found.append(Repeat(index, table.formula("count", kinds, "number")))
        kinds.index(index)
        table.done()
    return found


def _direction(row: Table, key: str, kinds: Kinds) -> str | tuple[Formula, Formula, Formula]:
    value = row.data.get(key)
    if isinstance(value, list):
        parts = row.formulas(key, kinds, None, 3)
        if any(part.kind not in ("number", "length") for part in parts):
            row.fault(key, "must be a list of 3 numbers or lengths")
        return parts[0], parts[1], parts[2]
    return row.one_of(key, DIRECTIONS)


def _ends(row: Table, kinds: Kinds, earlier: Collection[str]) -> tuple[End, End]:
    values = row.take("ends", ["square", "square"])
    if not isinstance(values, list) or len(values) != 2:
        row.fault("ends", "must be a list of two ends, first at from, then at to")
        return End("square"), End("square")
    first, second = (_end(row, f"{row.at('ends')}/{i}", v, kinds, earlier) for i, v in enumerate(values))
    return first, second


def _end(row: Table, where: str, value: Any, kinds: Kinds, earlier: Collection[str]) -> End:
    if isinstance(value, str):
        inner = Table({}, where, row.faults)
        if value not in PLAIN_ENDS:
            inner.fault("", f"'{value}' is no end{meant(value, PLAIN_ENDS)}; "
                            "or write {angle = ..., about = ...} or {against = ...}")
        return End(value)
    inner = Table(value, where, row.faults)
    if inner.has("against"):
        name = inner.text("against")
        if name not in earlier:
            inner.fault("against", f"no member '{name}' above this one{meant(name, earlier)}")
        inner.done()
        return End("against", against=name)
    about = inner.one_of("about", ("thick", "wide"), "thick")
    end = End("angle", inner.formula("angle", kinds, "angle"), about)
    inner.done()
    return end


def _mirror(row: Table, kinds: Kinds) -> Mirror:
    made = Mirror(row.one_of("across", OVERALL), row.formula("at", kinds, "length"))
    row.done()
    return made


def _cut(row: Table, kinds: Kinds) -> Cut:
    kind = row.one_of("kind", CUTS)
    values: dict[str, Any] = {}
    words = {"text": row.text("text")} if row.has("text") else {}
    if kind == "round over":
        words["edges"] = _edges(row)
        values["radius"] = row.formula("radius", kinds, "length")
    elif kind == "outline":
        values["points"] = _points(row, kinds)
    elif kind == "plane":
        values["at"] = row.formulas("at", kinds, "length", 3)
        values["normal"] = _direction(row, "normal", kinds)
    elif kind == "pocket":
        values["from"] = row.formulas("from", kinds, "length", 3)
        values["to"] = row.formulas("to", kinds, "length", 3)
    elif kind == "hole":
        values["at"] = row.formulas("at", kinds, "length", 2)
        values["diameter"] = row.formula("diameter", kinds, "length")
    cut = Cut(kind, values, words, row.formula_or_none("when", kinds, "truth"), row.pointer)
    row.done()
    return cut


def _edges(row: Table) -> str:
    text = row.text("edges")
    for word in text.replace(",", " ").split():
        if word not in EDGES:
            row.fault("edges", f"'{word}' names no side{meant(word, EDGES)}")
    if not text.strip():
        row.fault("edges", 'must name edges, as "top front, top back"')
    return text


def _points(row: Table, kinds: Kinds) -> tuple[tuple[Any, ...], ...]:
    values = row.take("points", [])
    if not isinstance(values, list) or not 3 <= len(values) <= MOST_POINTS:
        row.fault("points", f"must be a list of 3 to {MOST_POINTS} points")
        return ()
    found: list[tuple[Any, ...]] = []
    for i, value in enumerate(values):
        where = f"{row.at('points')}/{i}"
        if isinstance(value, list):
            value = {"to": value}
        inner = Table(value, where, row.faults)
        to = inner.formulas("to", kinds, "length", 2)
        if inner.has("through"):
            if i == 0:
                inner.fault("through", "the first point cannot be the end of an arc")
            found.append(("arc", to, inner.formulas("through", kinds, "length", 2)))
        else:
            found.append(("line", to))
        inner.done()
    return tuple(found)
