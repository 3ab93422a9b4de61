"""The house stays calm: short files, short functions, docstrings, annotations; and complete guides."""

from __future__ import annotations

import ast
import re
import statistics
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "service" / "yardwright"
FILES = sorted(p for p in SOURCE.rglob("*.py") if p.read_text(encoding="utf-8").strip())
TREES = {p: ast.parse(p.read_text(encoding="utf-8")) for p in FILES}
FUNCTIONS = [(p, n) for p, tree in TREES.items() for n in ast.walk(tree)
             if isinstance(n, ast.FunctionDef | ast.AsyncFunctionDef)]


def length(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    return (function.end_lineno or function.lineno) - function.lineno + 1


def test_no_file_is_longer_than_300_lines_and_most_are_short() -> None:
    lines = {p: len(p.read_text(encoding="utf-8").splitlines()) for p in FILES}
    assert {str(p): n for p, n in lines.items() if n > 300} == {}
    assert statistics.median(lines.values()) <= 120


def test_no_function_is_longer_than_50_lines_and_most_are_short() -> None:
    assert [f"{p.name}:{f.name} {length(f)}" for p, f in FUNCTIONS if length(f) > 50] == []
    assert statistics.median(length(f) for _, f in FUNCTIONS) <= 10


def test_every_module_says_what_it_is() -> None:
    assert [str(p) for p, tree in TREES.items() if not ast.get_docstring(tree)] == []


def test_every_public_function_of_the_domain_says_its_rule() -> None:
    bare = [f"{p.relative_to(SOURCE)}:{f.name}" for p, f in public_functions()
            if length(f) > 3 and not ast.get_docstring(f)]
    assert bare == []


def public_functions() -> list[tuple[Path, ast.FunctionDef | ast.AsyncFunctionDef]]:
    return [(p, f) for p, tree in TREES.items() if "domain" in p.parts for f in tree.body
            if isinstance(f, ast.FunctionDef) and not f.name.startswith("_")]


def test_every_function_says_what_it_returns() -> None:
    assert [f"{p.name}:{f.name}" for p, f in FUNCTIONS if f.returns is None] == []


def test_a_view_is_at_most_ten_lines() -> None:
    views = [f for p, f in FUNCTIONS if p.name == "routes.py" and f.decorator_list]
    assert views
    assert [f.name for f in views if length(f) > 10] == []


@pytest.mark.parametrize("name", sorted(
    p.stem for p in (SOURCE / "domain").iterdir()
    if p.stem != "__init__" and (p.suffix == ".py" or (p / "__init__.py").exists())))
def test_the_developers_guide_says_where_the_rule_lives(name: str) -> None:
    guide = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert re.search(rf"domain/{name}(\.py|/)", guide), f"domain/{name} is missing from DEVELOPERS.md"


def test_every_check_is_in_the_developers_guide() -> None:
    guide = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert "domain/checks/" in guide


@pytest.mark.parametrize("name", ["requirements.txt", "requirements-test.txt", "pyproject.toml"])
def test_no_requirement_names_a_host(name: str) -> None:
    lines = [line for line in (ROOT / name).read_text().splitlines() if not line.startswith("description")]
    assert [line for line in lines if re.search(r"https?://|index-url|find-links|git\+", line)] == []


def test_every_requirement_is_pinned_to_one_release() -> None:
    for name in ("requirements.txt", "requirements-test.txt"):
        for line in (ROOT / name).read_text().splitlines():
            pinned = re.fullmatch(r"[A-Za-z0-9_.-]+==[0-9][A-Za-z0-9.]*", line)
            assert pinned or not line or line[0] in "#-", line
