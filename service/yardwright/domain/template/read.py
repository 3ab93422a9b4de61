"""Reading a template: a table of plain values becomes a Template with every formula and name checked."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from ..errors import BadTemplate, Fault
from ..formula import CONSTANTS, Formula
from .members import read_members
from .model import Choice, Dimension, FitRule, Group, Role, Template
from .order import first_ring, in_order
from .rules import (
    Called,
    read_assembly,
    read_cautions,
    read_checks,
    read_glue_ups,
    read_hardware,
    read_joints,
    read_operations,
)
from .stands import ON_GROUND, STANDS
from .table import WORDS_AND_MARKS, Faults, Table, meant

NAME = re.compile(r"[a-z][a-z0-9_]{0,39}")
ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
MOST_DIMENSIONS = 24
MOST_CHOICES = 24
MOST_ROLES = 60
ABOUT = ("look", "make", "place", "use")
MOST_VALUES = 200        # named values; a fit has at most as many
MOST_FIT = 2_000         # words and marks in a fit's formulas, which are worked out often
MOST_NESTED = 16
MOST_ENTRIES = 6_000     # of the whole template, lists and tables counted through
MOST_LETTERS = 100_000
SHOP = ("shop.crosscut_kerf", "shop.rip_kerf", "shop.step", "shop.edge_trim")
WORDS = {*CONSTANTS, "and", "or", "not", "true", "false", "shop", "timber", "finish"}
OVERALL = ("length", "depth", "height")
WING = ("wing_length", "wing_depth")
ENVELOPE = (*OVERALL, "open_height", "open_front", "open_behind", "use_front", *WING)


@dataclass
class Names:
    """What formulas may use, by kind; grows as the template is read."""

    kinds: dict[str, str] = field(default_factory=dict)

    def add(self, table: Table, name: str, kind: str) -> None:
        """Declares a name once; a second declaration, or a word of the formula language, is a fault."""
        if not NAME.fullmatch(name.split(".")[0]) or name in WORDS:
            table.fault("", f"'{name}' cannot be a name: small letters, digits and _, not a word of formulas")
        elif name in self.kinds:
            table.fault("", f"'{name}' is declared twice")
        self.kinds[name] = kind


def read_template(data: Mapping[str, Any], source: str = "") -> Template:
    """The template in ``data`` (TOML or JSON structure); raises BadTemplate with every fault found.

    Pointers are RFC 6901 into ``data``. Formulas are read against the names declared before them.
    """
    _bounded(data)
    faults = Faults()
    top = Table(data, "", faults)
    template = _read(top, source)
    top.done()
    if faults:
        raise BadTemplate(*faults)
    return template


def _bounded(data: Any) -> None:
    """Raises BadTemplate before anything is read when there is more than any piece of furniture needs."""
    entries = letters = 0
    level: list[Any] = [data]
    for _ in range(MOST_NESTED):
        inner: list[Any] = []
        for one in level:
            if one.__class__ is str:
                letters += len(one)
            elif isinstance(one, dict):
                letters += sum(map(len, one))
                inner += one.values()
            elif isinstance(one, list | tuple):
                inner += one
        level = inner
        entries += len(level)
        if entries > MOST_ENTRIES or letters > MOST_LETTERS:
            raise BadTemplate(Fault("", f"a template holds at most {MOST_ENTRIES} entries and {MOST_LETTERS} "
                                        "letters in all"))
    if level:
        raise BadTemplate(Fault("", f"tables and lists are nested more than {MOST_NESTED} deep"))


def _read(top: Table, source: str) -> Template:
    names = Names()
    top.faults.names = names.kinds
    dimensions = _dimensions(top, names)
    choices = _choices(top, names)
    names.kinds |= {"timber": "text", "finish": "text"}
    dimensions = _used_when(top, names, dimensions)
    cautions = read_cautions(top, names.kinds)
    fit = _fit(top, names, dimensions)
    names.kinds |= dict.fromkeys(SHOP, "length")
    roles = _roles(top, names)
    values = _values(top, names)
    kinds = names.kinds
    groups = _groups(top, kinds)
    members = read_members(top, kinds, roles, groups)
    called = Called.of([m.name for m in members])
    glue_ups = read_glue_ups(top, called)
    ident = top.text("id")
    if ident and not ID.fullmatch(ident):
        top.fault("id", f"'{ident[:40]}' must be small letters, digits and hyphens, as garden-bench")
    timbers, finishes = top.words("timbers"), top.words("finishes")
    return Template(
        id=ident, revision=top.number("revision", 1), name=top.text("name"), summary=top.text("summary", ""),
        included=top.words("included"), dimensions=dimensions, choices=choices,
        timbers=timbers, default_timber=_default(top, "default_timber", timbers),
        finishes=finishes, default_finish=_default(top, "default_finish", finishes),
        roles=roles, values=values, overall=_overall(top, kinds), fit=fit, groups=groups, members=members,
        glue_ups=glue_ups, joints=(joints := read_joints(top, kinds, called)),
        hardware=read_hardware(top, kinds), operations=read_operations(top, kinds),
        assembly=read_assembly(top, kinds, called, [j.name for j in joints]),
        checks=read_checks(top, kinds, called),
        cautions=cautions, stands=top.one_of("stands", STANDS, ON_GROUND), source=source,
        words=WORDS_AND_MARKS - top.faults.budget.steps)


def _default(top: Table, key: str, among: tuple[str, ...]) -> str:
    value = top.text(key, among[0] if among else "none")
    if among and value not in among:
        top.fault(key, f"'{value}' is not in the list{meant(value, among)}")
    return value


def _dimensions(top: Table, names: Names) -> tuple[Dimension, ...]:
    found = []
    rows = top.named("dimensions")
    if not 0 < len(rows) <= MOST_DIMENSIONS:
        top.fault("dimensions", f"must declare 1 to {MOST_DIMENSIONS} dimensions")
    for name, row in rows.items():
        names.add(row, name, "length")
        before = len(top.faults)
        d = Dimension(name, row.text("label"), row.lengths("default"), row.length("min"), row.length("max"),
                      row.lengths("step"), row.text("help", ""), measures=row.text("measures", ""))
        if len(top.faults) == before:
            _in_range(row, d)
        if d.measures and name not in OVERALL:
            row.fault("measures", "is for dimensions named length, depth or height that are no overall size")
        row.take("when")         # read when the choices are known
        row.done()
        found.append(d)
    return tuple(found)


def _in_range(row: Table, d: Dimension) -> None:
    said = {key: row.data[key] for key in ("min", "max")}
    if d.least_nm <= 0:
        row.fault("min", f"{said['min']} is not more than nothing")
    elif d.least_nm > d.most_nm:
        row.fault("max", f"max {said['max']} is less than min {said['min']}; are they the wrong way round?")
    else:
        given = row.data["default"]
        written = given if isinstance(given, Mapping) else {"in": given}
        for unit, text in written.items():
            if not d.least_nm <= d.default_nm[unit] <= d.most_nm:
                row.fault("default", f"{text} is outside min {said['min']} to max {said['max']}")
    if any(nm <= 0 for nm in d.step_nm.values()):
        row.fault("step", "must be more than nothing")


def _used_when(top: Table, names: Names, dimensions: tuple[Dimension, ...]) -> tuple[Dimension, ...]:
    rows = top.named("dimensions")
    return tuple(replace(d, when=rows[d.name].formula_or_none("when", names.kinds, "truth"))
                 for d in dimensions)


def _choices(top: Table, names: Names) -> tuple[Choice, ...]:
    found = []
    rows = top.named("choices")
    if len(rows) > MOST_CHOICES:
        top.fault("choices", f"has more than {MOST_CHOICES} entries")
        return ()
    for name, row in rows.items():
        options = []
        for option in row.tables("options"):
            options.append((option.text("id"), option.text("label")))
            option.done()
        default = row.text("default", options[0][0] if options else "")
        if not options:
            row.fault("options", "must list at least one option")
        elif default not in dict(options):
            row.fault("default", f"'{default}' is not an option{meant(default, dict(options))}")
        if len(dict(options)) < len(options):
            row.fault("options", "an option's id is given twice")
        names.add(row, name, "one of " + "|".join(dict(options)))
        found.append(Choice(name, row.text("label"), tuple(options), default, row.text("help", ""),
                            row.one_of("about", ABOUT, "look")))
        row.done()
    return tuple(found)


def _roles(top: Table, names: Names) -> tuple[Role, ...]:
    found = []
    for key, material, stock in (("boards", "board", "sections"), ("sheets", "sheet", "material"),
                                 ("rolls", "roll", "material")):
        for name, row in top.named(key).items():
            for side in ("width", "thickness"):
                names.add(row, f"{name}.{side}", "length")
            sections = row.words(stock)
            if not sections:
                row.fault(stock, "must name at least one")
            timber = row.text("timber", "") if material == "board" else ""
            grade = row.text("grade", "") if material == "board" else ""
            heavier = row.words("heavier") if material == "board" else ()
            label = row.text("label", "") if material == "board" else ""
            role = Role(name, material, sections, timber, grade, heavier, label)
            if heavier and role.chosen_by in names.kinds:
                row.fault("heavier", f"is chosen by '{role.chosen_by}', which is the name of something else")
            found.append(role)
            row.done()
    if len(found) > MOST_ROLES:
        top.fault("", f"has more than {MOST_ROLES} boards, sheets and rolls")
    return tuple(found)


def _values(top: Table, names: Names) -> tuple[tuple[str, Formula], ...]:
    inner = top.table("values")
    found = []
    for name in _ordered(inner):
        made = inner.value(name, names.kinds)
        names.add(Table({}, inner.at(name), inner.faults), name, made.kind)
        found.append((name, made))
    return tuple(found)


def _ordered(values: Table) -> list[str]:
    if len(values.data) > MOST_VALUES:
        values.fault("", f"has more than {MOST_VALUES} entries")
        return []
    around, lost = first_ring(values.data)
    if around:
        way = " uses ".join((*around, around[0]))
        values.fault(around[0], f"goes in a ring: {way}; one of them must not use the next")
    values.faults.broken.update(lost)
    return in_order(values.data)


def _overall(top: Table, kinds: Mapping[str, str]) -> dict[str, Formula]:
    inner = top.table("overall")
    found = {name: inner.formula(name, kinds, "length") for name in OVERALL}
    inner.done()
    return found


def _fit(top: Table, names: Names, dimensions: tuple[Dimension, ...]) -> FitRule:
    inner, before = top.table("fit"), top.faults.budget.steps
    values, table = [], inner.table("values")
    for name in _ordered(table):
        made = table.value(name, names.kinds)
        names.add(Table({}, table.at(name), table.faults), name, made.kind)
        values.append((name, made))
    envelope, rows = {}, inner.table("envelope")
    for name in ENVELOPE:
        if name in OVERALL or rows.has(name):
            envelope[name] = rows.formula(name, names.kinds, "length")
    rows.done()
    known = [d.name for d in dimensions]
    priority = inner.words("priority") if inner.has("priority") else tuple(known)
    for name in priority:
        if name not in known:
            inner.fault("priority", f"no dimension '{name}'{meant(name, known)}")
    wing = inner.formula_or_none("wing", names.kinds, "text")
    if wing is None and any(name in envelope for name in WING):
        inner.fault("wing", "is missing: at which end the wing is, as a text 'left', 'right' or 'none'")
    elif wing is not None and any(name not in envelope for name in WING):
        inner.fault("envelope", f"a piece with a wing needs {' and '.join(WING)}")
    inner.done()
    if before - top.faults.budget.steps > MOST_FIT:
        inner.fault("", f"its formulas hold more than {MOST_FIT} words and marks; the phone works them out"
                        " too")
    return FitRule(tuple(values), envelope, priority, wing)


def _groups(top: Table, kinds: Mapping[str, str]) -> tuple[Group, ...]:
    found = []
    for name, row in top.named("groups").items():
        if name == "fixed":
            row.fault("", "'fixed' is the group of what does not move")
        at = row.formulas("at", kinds, "length", 3)
        found.append(Group(name, row.one_of("along", OVERALL), (at[0], at[1], at[2]),
                           row.formula("opens", kinds, "angle"), row.formula_or_none("when", kinds, "truth")))
        row.done()
    return tuple(found)
