"""All checks together: order, unknown rules, what a template may ask."""

from __future__ import annotations

import ast
import re
from dataclasses import replace
from pathlib import Path

import pytest

import yardwright
from handmade import NUMBER, TEMPLATE, UNNAMED, asked, box, limits, piece, shop
from yardwright.domain.checks import ALWAYS, RULES, run, validate
from yardwright.domain.finding import Level
from yardwright.domain.formula.model import Formula
from yardwright.domain.measure import Writer
from yardwright.domain.site import Ground, Site
from yardwright.domain.template.model import CheckRule

CHECKS = Path(yardwright.__file__).parent / "domain/checks"
LENGTH = Formula("1*inch", 25.4, "length")


def test_findings_come_stop_caution_not_checked_note_ok() -> None:
    board = box("Slat 1", (0, 0, 631), (1000, 140, 19))
    feet = box("Foot", (0, 0, 0), (100, 140, 100), along="z", kind=UNNAMED)
    made = piece([board, feet], checks=[
        asked("seat load", ["Slat 1"]), asked("seat", height=650.0, length=1000.0),
        asked("shelf load", ["Foot"]), asked("soil weight", soil_volume=1e8)])
    site = Site(ground=Ground(surface="balcony"))
    levels = [f.level for f in run(made, None, site, shop(), Writer("in"))]
    order = [Level.STOP, Level.CAUTION, Level.NOT_CHECKED, Level.NOTE, Level.OK]
    assert levels == sorted(levels, key=order.index)
    assert {Level.STOP, Level.CAUTION, Level.NOT_CHECKED, Level.NOTE} <= set(levels)


def test_a_rule_nobody_knows_is_not_checked() -> None:
    made = piece([box("Slat", (0, 0, 0), (1000, 140, 19))], checks=[asked("wobble")])
    found = [f for f in run(made, None, Site(), shop(), Writer("in")) if f.rule == "wobble"]
    assert [f.level for f in found] == [Level.NOT_CHECKED]


def faults(check: CheckRule) -> list[tuple[str, str]]:
    return [(f.pointer, f.detail) for f in validate(replace(TEMPLATE, checks=(check,)))]


def test_a_right_check_has_no_fault() -> None:
    assert faults(CheckRule("seat", {"height": LENGTH}, {"users": "adult"})) == []
    assert faults(CheckRule("tip over", {"push_height": LENGTH, "seat": NUMBER})) == []


@pytest.mark.parametrize(("check", "pointer", "told"), [
    (CheckRule("seet"), "/checks/0/rule", "did you mean 'seat'?"),
    (CheckRule("seat"), "/checks/0", "needs height (a length)"),
    (CheckRule("seat", {"height": NUMBER}), "/checks/0/height", "is a length, this formula gives a number"),
    (CheckRule("seat", {"height": LENGTH, "hight": LENGTH}), "/checks/0/hight", "did you mean 'height'?"),
    (CheckRule("seat", {"height": LENGTH}, {"users": "giant"}), "/checks/0/words/users", "not 'giant'"),
    (CheckRule("seat load"), "/checks/0/members", "needs members"),
    (CheckRule("lid", {}, {"grup": "lid"}), "/checks/0/words/grup", "did you mean 'group'?"),
])
def test_faults_name_the_place_and_what_would_be_right(check: CheckRule, pointer: str, told: str) -> None:
    found = faults(check)
    assert found[0][0] == pointer and told in found[0][1]


def test_every_rule_is_in_a_file_of_its_own_with_its_source_named() -> None:
    names = {*RULES, *(r.name for r in ALWAYS)}
    files = [p for p in CHECKS.glob("*.py") if "\nRULE = Rule(" in p.read_text("utf-8")]
    assert len(files) == len(names)
    for path in files:
        text = path.read_text("utf-8")
        assert "source" in text.lower(), path.name
        assert re.search(r"memory|seen|judgement|practice|geometry|template|readings|solids", text), path.name
        told = ast.get_docstring(ast.parse(text)) or ""
        assert re.search(r"Sources?:|Rule:", told) and "Limits of validity:" in told, path.name


def test_every_limit_is_used_by_some_check() -> None:
    """A figure nobody reads would look checked and be not."""
    text = "".join(p.read_text("utf-8") for p in CHECKS.glob("*.py"))
    built = ("strength.", "structure.flat_use", "people.seat_", "movement.seat_gap", "movement.floor_gap",
             "movement.side_gap", "structure.duration_", "people.back_top", "structure.deflection_",
             "structure.bulge_", "structure.back_", "structure.table_load", "structure.shelf_load",
             "structure.box_load")
    ours = [k for k in limits() if k.split(".")[0] in ("structure", "people", "soil", "ground", "movement")]
    assert [k for k in ours if not k.startswith(built) and k not in text] == []


def test_every_limit_has_a_source_and_a_known_status() -> None:
    known = {"seen", "memory", "recomputed", "common practice", "judgement"}
    assert [k for k, f in limits().items() if not f.source or f.status not in known] == []


def test_the_format_page_tells_every_rule_and_what_it_takes() -> None:
    page = (CHECKS.parents[1] / "data/templates/README.md").read_text("utf-8")
    for name, rule in RULES.items():
        row = next((line for line in page.splitlines() if line.startswith(f"| {name} |")), "")
        assert row, name
        assert [v for v in (*rule.needs, *rule.may, *rule.words) if f"`{v}`" not in row] == [], name
    told = page.split("Always run, unasked:")[1].split("Joints are judged")[0]
    assert [r.name for r in ALWAYS if r.name not in " ".join(told.split())] == []
