"""What check prints: each kind of fault once, with the line of the template to look at."""

from __future__ import annotations

from pathlib import Path

from builders import DATA, demo_shop
from yardwright.domain.piece.trial import trial
from yardwright.files.templates import load
from yardwright.files.trial_report import report_lines

PLANTER = (DATA / "templates" / "planter-box.toml").read_text(encoding="utf-8")


def lines(tmp_path: Path, old: str, new: str) -> list[str]:
    assert old in PLANTER
    path = tmp_path / "spoilt.toml"
    path.write_text(PLANTER.replace(old, new, 1), encoding="utf-8")
    template = load(path)
    return report_lines(trial(template, demo_shop(), 4), template, path)


def test_a_size_that_is_not_kept_points_at_the_overall_size(tmp_path: Path) -> None:
    told = lines(tmp_path, '[overall]\nlength = "length"', '[overall]\nlength = "length + 3*inch"')
    number = PLANTER[:PLANTER.index("[overall]")].count("\n") + 2
    assert told[0].startswith(f"spoilt.toml:{number}  overall.length: says ")
    assert told[1].endswith(" (and at all the others of 54)") and told[1].startswith("    at length ")


def test_the_same_fault_at_many_points_is_told_once(tmp_path: Path) -> None:
    told = lines(tmp_path, 'name = "Corner post"', 'name = "Corner post"\nwidth = "9*inch"')
    heads = told[::2]
    assert len(heads) == len(set(heads)) and len(heads) < 12
    line = PLANTER[:PLANTER.index('name = "Corner post"')].count("\n")
    assert any(head.startswith(f"spoilt.toml:{line}") for head in heads)
