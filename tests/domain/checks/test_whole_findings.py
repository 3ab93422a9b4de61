"""A finding that measures something says what, against which limit, from where, and how the figure arose."""

from __future__ import annotations

import ast
import random
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import yardwright
from builders import MM, demo_shop, demo_shop_metric
from yardwright.domain import fit
from yardwright.domain.checks import run
from yardwright.domain.finding import Finding, Level
from yardwright.domain.measure import Writer
from yardwright.domain.piece import offered
from yardwright.domain.piece.build import build
from yardwright.domain.site import Access, Corner, Ground, Measured, Obstruction, Site, Wall

TEMPLATES = ("storage-bench", "planter-box", "lounge-chair", "picnic-table", "corner-bench")
PARTS = ("measured", "limit", "source", "working")
NO_LIMIT = {"random-width-estimate": "an estimated amount is held against nothing"}
SOURCES = Path(yardwright.__file__).parent


def calls() -> Iterator[tuple[str, ast.Call]]:
    """Every place in the program that makes a finding."""
    for path in sorted(SOURCES.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Finding":
                yield f"{path.relative_to(SOURCES)}:{node.lineno}", node


def given(call: ast.Call) -> set[str]:
    """The parts of a finding that a call gives, other than as an empty text."""
    names = list(Finding.__dataclass_fields__)
    said = dict(zip(names, call.args, strict=False)) | {k.arg: k.value for k in call.keywords if k.arg}
    return {n for n, value in said.items() if not (isinstance(value, ast.Constant) and value.value == "")}


def test_wherever_a_finding_measures_it_is_made_with_limit_source_and_working() -> None:
    found = [(at, given(call)) for at, call in calls()]
    assert len(found) > 80
    assert [(at, sorted(set(PARTS) - said)) for at, said in found
            if "measured" in said and not set(PARTS) <= said and "random_width" not in at] == []


def a_site(chance: random.Random) -> Site:
    """A place drawn by chance: readings that fit together or not, things on the wall, any ground."""
    kind = chance.choice(("open", "against a wall", "corner", "between walls"))
    run_mm = chance.randrange(700, 4000)
    sides = {"corner": (chance.choice(("left", "right")),), "between walls": ("left", "right")}.get(kind, ())
    walls = () if kind == "open" else (
        Wall("back", tuple(Measured((run_mm + chance.randrange(-30, 30)) * MM, at * MM) for at in (100, 900)),
             chance.choice((0, 10, -14, 400)) * MM, 1000 * MM, _things(chance, run_mm)),
        *(Wall(side, (Measured(chance.randrange(800, 2000) * MM),), 12 * MM, 1000 * MM) for side in sides))
    access = tuple(Access(way, chance.randrange(500, 1200) * MM, chance.choice((None, 2000 * MM)))
                   for way in chance.sample(("gate", "stairs", "turn", "passage"), chance.randrange(3)))
    ground = Ground(chance.choice(("", "paving", "deck", "balcony", "soil", "moss")),
                    chance.choice((0, 0.03)), chance.choice((0, 0.02)),
                    chance.choice((None, 0, 300 * MM, 900 * MM)),
                    chance.choice((None, 1.5, 5.0)))
    return Site(kind, walls, tuple(Corner(side, chance.choice((90.0, 88.0, 93.5))) for side in sides),
                (Measured(chance.randrange(500, 2500) * MM),), chance.choice((None, 900 * MM)), ground,
                access, chance.choice(("", "suburban", "coast")), chance.choice(("", "Phoenix", "Seattle")))


def _things(chance: random.Random, run_mm: int) -> tuple[Obstruction, ...]:
    starts = [(kind, chance.randrange(run_mm)) for kind in chance.sample(sorted(demo_shop().keep_clear), 2)]
    return tuple(Obstruction(kind, at * MM, (at + chance.randrange(30, 400)) * MM, 80 * MM)
                 for kind, at in starts)


def findings(seed: int) -> Iterator[tuple[str, Finding]]:
    """All findings of one piece of each template, at sizes, choices and a place drawn by chance, with the
    job's units."""
    for name in TEMPLATES:
        chance = random.Random(f"{seed} {name}")
        units = chance.choice(("in", "mm"))
        shop = demo_shop() if units == "in" else demo_shop_metric()
        template, site, writer = shop.templates[name], a_site(chance), Writer(units)
        sizes = {d.name: chance.choice((d.least_nm, d.most_nm, chance.randint(d.least_nm, d.most_nm)))
                 for d in template.dimensions}
        words = {choice.name: chance.choice(choice.options)[0] for choice in offered(template, shop)
                 if not choice.name.endswith("_section")}      # not every timber is sold so heavy
        made = build(template, sizes, words, shop, units)
        found = fit.fit(template, made.dimensions_nm, made.choices, site, shop, units)
        found = fit.with_way_in(found, made, site.access, writer)
        yield from ((units, f) for f in (*run(made, found, site, shop, writer),
                                         *fit.site_findings(site, shop, writer)))


@pytest.mark.parametrize("seed", range(8))
def test_what_is_measured_and_what_is_grave_is_told_whole(seed: int) -> None:
    """Over pieces and places by chance: measured, limit, source and working, in the figures of the job."""
    lacking = {(f.rule, f.title, part) for _, f in findings(seed)
               if f.measured or f.level in (Level.STOP, Level.CAUTION)
               for part in PARTS if not getattr(f, part) and not (part == "limit" and f.rule in NO_LIMIT)}
    assert lacking == set()


METRIC = re.compile(r"\d (mm|cm|m|kg|N|N·m|N/mm²|kN/m²|N/m²|kg/m³|L|m²)\b")
IMPERIAL = re.compile(r"\d (in(?! comfort)|lbf|lb|psi|ft³|in²|ft|lb/ft²|lb/ft³|in·lbf)\b")


@pytest.mark.parametrize("seed", range(8, 12))
def test_what_is_measured_and_its_working_are_in_the_units_of_the_job(seed: int) -> None:
    wrong = {"in": METRIC, "mm": IMPERIAL}
    strange = {(f.rule, text) for units, f in findings(seed) for text in (f.measured, f.limit, f.working)
               if wrong[units].search(text)}
    assert strange == set()
