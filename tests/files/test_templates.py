"""Templates from files: faults told by file and line, the shipped ones read clean."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from datetime import date
from itertools import pairwise
from pathlib import Path

import pytest

from builders import DATA, demo_shop, demo_shop_metric
from format_page import BLOCKS, PAGE, STAGES, TEN_LINES
from yardwright import cli, quoting
from yardwright.domain import checks, formula, piece
from yardwright.domain.errors import BadTemplate
from yardwright.domain.finding import Level
from yardwright.domain.job import Customer, Item, Job
from yardwright.domain.piece import members, trial
from yardwright.domain.piece.points import MOST_CORNERS
from yardwright.domain.piece.trial import MOST_COMBINATIONS
from yardwright.domain.shop import Shop
from yardwright.domain.site import Site
from yardwright.domain.template import members as rules
from yardwright.domain.template import read, table
from yardwright.domain.template.members import CUTS, PLAIN_ENDS
from yardwright.domain.template.read import ENVELOPE
from yardwright.domain.template.rules import FASTENINGS, GLUE_UPS
from yardwright.files.templates import load
from yardwright.quoting import limits
from yardwright.quoting.held import held
from yardwright.quoting.makeable import not_makeable

BENCH = DATA / "templates" / "storage-bench.toml"


def faults(path: Path) -> list[tuple[str, str]]:
    with pytest.raises(BadTemplate) as refused:
        load(path)
    return [(f.pointer, f.detail) for f in refused.value.faults]


@pytest.mark.parametrize("path", sorted((DATA / "templates").glob("*.toml")), ids=lambda p: p.stem)
def test_a_shipped_template_reads_clean_and_asks_for_checks_that_exist(path: Path) -> None:
    template = load(path)
    assert template.id == path.stem and template.source == path.name
    assert checks.validate(template) == ()
    assert template.checks and template.cautions and template.included and template.assembly


def test_a_fault_names_file_and_line_and_what_would_be_right(tmp_path: Path) -> None:
    text = BENCH.read_text(encoding="utf-8")
    line = (
        text[: text.index('board = "crest"' if 'board = "crest"' in text else 'name = "Crest rail"')].count(
            "\n"
        )
        + 1
    )
    broken = tmp_path / "bench.toml"
    broken.write_text(
        text.replace('name = "Crest rail"\nboard = "back_rail"', 'name = "Crest rail"\nboard = "back_rial"')
    )
    ((where, said),) = faults(broken)
    assert where == f"bench.toml:{line + 1}"
    assert "did you mean 'back_rail'" in said


def test_a_wrong_formula_names_the_line_of_its_value(tmp_path: Path) -> None:
    text = BENCH.read_text(encoding="utf-8").replace('cr = "cos(rake)"', 'cr = "cos(raek)"')
    broken = tmp_path / "bench.toml"
    broken.write_text(text)
    ((where, said),) = faults(broken)
    assert where == f"bench.toml:{text[: text.index('cr = ')].count(chr(10)) + 1}"
    assert said.startswith("values.cr: ") and "rake" in said


def test_a_file_that_is_no_toml_says_where(tmp_path: Path) -> None:
    broken = tmp_path / "x.toml"
    broken.write_text("id = \n")
    ((where, said),) = faults(broken)
    assert where == "x.toml:1" and said.startswith("'id =': ")


@pytest.mark.parametrize("shop", [demo_shop(), demo_shop_metric()], ids=["inches", "metric"])
@pytest.mark.parametrize("stage", STAGES)
def test_each_stage_of_the_format_page_has_no_fault(stage: str, shop: Shop, tmp_path: Path) -> None:
    """As `yardwright check` looks at it; and nothing holds its quote at its smallest and its largest."""
    path = tmp_path / "duckboard.toml"
    path.write_text(STAGES[stage], encoding="utf-8")
    template = load(path)
    report = trial(template, shop, 40, also=not_makeable, usually=held)
    assert report.good, (report.lacking, report.faults[:3])
    known = replace(shop, templates={**shop.templates, template.id: template})
    for sizes in ({d.name: d.least_nm for d in template.dimensions},
                  {d.name: d.most_nm for d in template.dimensions}):
        job = Job("F-1", shop.units, date(2026, 11, 25), Customer(), Site(), (Item(template.id, sizes, {}),))
        quote = quoting.make_quote(job, known)
        assert [f.title for f in quote.items[0].findings if f.level is Level.STOP] == []
        assert quote.price.total.minor > 0


def test_the_format_page_grows_one_example_and_never_starts_anew() -> None:
    """Ten lines at most; every stage of one piece, each with more in it than the one before."""
    read = [tomllib.loads(text) for text in STAGES.values()]
    assert len(TEN_LINES.splitlines()) <= 10 and len(BLOCKS) == 4
    assert {one["id"] for one in read} == {"duckboard"}
    for less, more in pairwise(read):
        assert set(less) <= set(more) and len(more["members"]) > len(less["members"])
    assert {"summary", "included", "cautions", "assembly", "hardware", "choices", "checks"} <= set(read[-1])


def test_the_format_page_names_every_cut_end_and_fastening() -> None:
    for word in (*CUTS, *PLAIN_ENDS, *FASTENINGS, *GLUE_UPS, *ENVELOPE):
        assert word in PAGE, word


def test_the_format_page_says_how_much_is_tried_as_the_command_does() -> None:
    said = " ".join(PAGE.split())
    usual = cli._reader().parse_args(["check", "x.toml"])
    assert usual.combinations == MOST_COMBINATIONS
    assert f"at each corner {usual.combinations} combinations" in said
    assert f"{usual.points} sets of sizes and choices" in said and f"more than {MOST_CORNERS} as many" in said
    for flag in ("--points", "--combinations", "--seed", "--drawing"):
        assert flag in said


def test_the_format_page_states_the_bounds_that_hold() -> None:
    said = " ".join(PAGE.split())
    for number, what in (
        (read.MOST_ENTRIES, "entries"), (read.MOST_LETTERS, "letters"), (read.MOST_NESTED, "deep"),
        (table.MOST_ROWS, "entries a list"), (formula.MOST_CHARS, "characters"),
        (formula.MOST_NODES, "parts"), (formula.MOST_DEEP, "deep"),
        (table.WORDS_AND_MARKS, "words and marks in all"),
        (read.MOST_FIT, "of them in `[fit]`"), (members.MOST_MEMBERS, "a piece"),
        (rules.MOST_INDICES, "repeats"), (rules.MOST_MIRRORS, "mirrors"), (rules.MOST_CUTS, "cuts each"),
        (rules.MOST_POINTS, "points an outline"), (piece.INLINE.steps, "for any piece"),
        (piece.INLINE.each_member, "more for each member"), (piece.INLINE.most, "at most"),
        (piece.OWN.steps, "steps of work"), (limits.MOST_INLINE, "items with a template of their own"),
    ):
        assert f"{number:,} {what}".replace(",", " ") in said, (number, what)
