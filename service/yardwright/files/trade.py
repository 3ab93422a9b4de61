"""Timbers, sections and finishes from data/: each published figure with value, unit, source and status."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from ..domain.market import Figure, Finish, Section, Timber
from .tomldoc import Entry, convert, read
from .units import BadUnit, quantity

STATUSES = ("seen", "memory", "recomputed", "common practice", "judgement", "demonstration", "shop")

# The file's name of a figure -> the engine's name and unit.
TIMBER_FIGURES = {
    "density": ("density_kg_m3", "kg/m3"),
    "specific_gravity": ("specific_gravity", "1"),
    "radial_shrinkage": ("radial_shrinkage_pct", "%"),
    "tangential_shrinkage": ("tangential_shrinkage_pct", "%"),
    "radial_movement": ("radial_movement", "1"),
    "tangential_movement": ("tangential_movement", "1"),
    "rupture": ("rupture_mpa", "N/mm2"),
    "elasticity": ("elasticity_mpa", "N/mm2"),
    "side_hardness": ("side_hardness_n", "N"),
}


def figure(entry: Entry) -> Figure:
    """``{value, unit, source, status}`` with the value in the engine's unit of its kind."""
    entry.only("value", "unit", "source", "status", "note")
    value, unit = convert(entry)
    source = entry.word("source")
    if not source.strip():
        raise entry.fault("the source is empty; say where the figure comes from", "source")
    return Figure(value, unit, source, entry.one_of("status", STATUSES))


def _figure_in(entry: Entry, unit: str) -> Figure:
    found = figure(entry)
    if found.unit != unit:
        raise entry.fault(f"{entry.word('unit')!r} cannot be turned into {unit or 'a bare number'}", "unit")
    return found


def read_timber(path: Path) -> Timber:
    """One timber file. The figures it lacks stay away: what needs them then says "not checked"."""
    top = read(path)
    top.only("id", "name", "botanical", "kind", "durability", "treated", "cautions", "fasteners", "moisture",
             "figures")
    if top.word("id") != path.stem:
        raise top.fault(f"{top.word('id')!r} is not the file's name, {path.stem!r}", "id")
    figures = top.table("figures")
    figures.only(*TIMBER_FIGURES)
    found = {}
    for name, entry in figures.tables():
        key, unit = TIMBER_FIGURES[name]
        found[key] = _figure_in(entry, unit)
        if found[key].value <= 0:
            raise entry.fault("a figure of a timber is above 0", "value")
    if "density_kg_m3" not in found:
        raise figures.fault("'density' is missing; without it nothing can be weighed")
    return Timber(top.word("id"), top.word("name"), top.word("botanical"),
                  top.one_of("kind", ("softwood", "hardwood")), top.word("durability"),
                  top.word("treated", ""), _figure_in(top.table("moisture"), "%").value, found,
                  top.words("cautions"), top.words("fasteners"))


def read_timbers(folder: Path) -> Mapping[str, Timber]:
    """All timbers of a folder by id."""
    return {timber.id: timber for timber in map(read_timber, sorted(folder.glob("*.toml")))}


def read_sections(folder: Path) -> Mapping[str, Section]:
    """All lumber sections by id. A section twice, or wider dry than green, is refused."""
    found: dict[str, Section] = {}
    for path in sorted(folder.glob("*.toml")):
        top = read(path)
        top.only("system", "source", "status", "sections")
        system = top.one_of("system", ("in", "mm"))
        for name, entry in top.table("sections").tables():
            if name in found:
                raise entry.fault(f"section {name!r} stands in two files")
            found[name] = _section(name, system, top, entry)
    return found


def _section(name: str, system: str, top: Entry, entry: Entry) -> Section:
    entry.only("thickness", "width", "green_thickness", "green_width", "source", "status")
    source = entry.word("source") if entry.has("source") else top.word("source")
    status = (entry if entry.has("status") else top).one_of("status", STATUSES)
    section = Section(name, system, entry.length("thickness"), entry.length("width"),
                      entry.length("green_thickness"), entry.length("green_width"), source, status)
    if min(section.thickness_nm, section.width_nm) <= 0:
        raise entry.fault("a section has a thickness and a width above 0")
    if section.green_thickness_nm < section.thickness_nm or section.green_width_nm < section.width_nm:
        raise entry.fault("green wood is never smaller than the same wood dry")
    return section


def read_finishes(folder: Path) -> Mapping[str, Finish]:
    """All finishes by id; "none" is no finish and needs no file."""
    found = {}
    for path in sorted(folder.glob("*.toml")):
        top = read(path)
        top.only("id", "name", "coats", "coverage", "labour", "dry", "cautions", "source", "status")
        finish = _finish(top)
        found[finish.id] = finish
    return found


def _finish(top: Entry) -> Finish:
    """Coverage is written as area per volume ("ft2/gal", "m2/L"), labour as time per area ("min/m2")."""
    coverage, labour = top.table("coverage"), top.table("labour")
    for below in (coverage, labour):
        below.only("by_coat", "unit")
    return Finish(top.word("id"), top.word("name"), top.whole("coats", 1),
                  _per(coverage, "m2", "L"), _per(labour, "min", "m2"),
                  top.quantity("dry", "min") / 60, top.words("cautions"),
                  top.word("source"), top.one_of("status", STATUSES))


def _per(entry: Entry, over: str, under: str) -> tuple[float, ...]:
    """Numbers in ``a/b`` units turned into over/under."""
    top, slash, bottom = entry.word("unit").partition("/")
    if not slash:
        raise entry.fault(f"a unit like '{over}/{under}' is expected", "unit")
    factor = _in(entry, top, over) / _in(entry, bottom, under)
    return tuple(value * factor for value in entry.numbers("by_coat"))


def _in(entry: Entry, unit: str, wanted: str) -> float:
    try:
        return quantity(f"1 {unit}", wanted)
    except BadUnit as bad:
        raise entry.fault(str(bad), "unit") from None
