"""Templates from files: faults told by file and line, the shipped ones read clean."""

from __future__ import annotations

from pathlib import Path

import pytest

from builders import DATA, demo_shop, demo_shop_metric
from yardwright.domain import checks, formula, piece
from yardwright.domain.errors import BadTemplate
from yardwright.domain.piece import members, trial
from yardwright.domain.template import members as rules
from yardwright.domain.template import read, table
from yardwright.domain.template.members import CUTS, PLAIN_ENDS
from yardwright.domain.template.read import ENVELOPE
from yardwright.domain.template.rules import FASTENINGS, GLUE_UPS
from yardwright.files.templates import load
from yardwright.quoting import limits

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


README = (DATA / "templates" / "README.md").read_text(encoding="utf-8")
EXAMPLES = README.split("```toml\n")[1:]


@pytest.mark.parametrize("number", range(len(EXAMPLES)))
def test_the_examples_in_the_format_page_work_as_they_stand(number: int, tmp_path: Path) -> None:
    path = tmp_path / "duckboard.toml"
    path.write_text(EXAMPLES[number].split("```")[0], encoding="utf-8")
    template = load(path)
    assert checks.validate(template) == ()
    for shop in (demo_shop(), demo_shop_metric()):
        report = trial(template, shop, 10)
        assert report.good, report.faults[:3]


def test_the_format_page_names_every_cut_end_and_fastening() -> None:
    for word in (*CUTS, *PLAIN_ENDS, *FASTENINGS, *GLUE_UPS, *ENVELOPE):
        assert word in README, word


def test_the_format_page_states_the_bounds_that_hold() -> None:
    said = " ".join(README.split())
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
