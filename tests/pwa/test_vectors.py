"""The phone's logic gives the same answers as the service over the shared vector files."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path
from typing import Any

import playwright
import pytest

import fit_cases

ROOT = Path(__file__).parents[2]
VECTORS = ROOT / "tests" / "vectors"


def node() -> str:
    """Node from the path, else the one inside the playwright wheel: never a reason to skip."""
    bundled = Path(playwright.__file__).parent / "driver" / "node"
    return shutil.which("node") or str(bundled)


@pytest.fixture(scope="module")
def logic(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The logic files set where any Node takes them for modules."""
    folder = tmp_path_factory.mktemp("logic")
    (folder / "package.json").write_text('{"type": "module"}')
    for source in (ROOT / "pwa" / "logic").glob("*.js"):
        shutil.copy(source, folder)
    return folder


def run(logic: Path, which: str) -> Any:
    vectors = (VECTORS / f"{which}.json").read_text(encoding="utf-8")
    done = subprocess.run([node(), str(ROOT / "tests" / "pwa" / "run_vectors.mjs"), str(logic), which],
                          input=vectors, capture_output=True, text=True, encoding="utf-8", timeout=60)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def cases(which: str) -> Any:
    return json.loads((VECTORS / f"{which}.json").read_text(encoding="utf-8"))


def test_the_phone_reads_and_writes_lengths_as_the_service_does(logic: Path) -> None:
    answers, asked = run(logic, "lengths"), cases("lengths")
    for case, answer in zip(asked["read"], answers["read"], strict=True):
        if case["nm"] is None:
            assert (answer["error"], answer["candidates"]) == (case["error"], case["candidates"]), case
        else:
            assert (answer.get("nm"), bool(answer.get("note"))) == (case["nm"], case["note"]), (case, answer)
    for case, answer in zip(asked["write"], answers["write"], strict=True):
        assert answer == case["text"], case


def alike(answer: Any, wanted: Any) -> bool:
    """Equal, but for a floating error in numbers."""
    if isinstance(wanted, dict):
        return answer.keys() == wanted.keys() and all(alike(answer[k], wanted[k]) for k in wanted)
    if isinstance(wanted, float | int) and not isinstance(wanted, bool):
        return bool(answer == pytest.approx(wanted, rel=1e-12, abs=1e-12))
    return type(answer) is type(wanted) and bool(answer == wanted)


def test_the_phone_works_formulas_out_as_the_service_does(logic: Path) -> None:
    for case, answer in zip(cases("formulas")["cases"], run(logic, "formulas"), strict=True):
        assert alike(answer, case["value"]), (case, answer)


def test_the_phone_fits_a_piece_as_the_service_does(logic: Path) -> None:
    answers, asked = run(logic, "fits"), cases("fits")
    for case, answer in zip(asked["cases"], answers["cases"], strict=True):
        bindings = answer.pop("bindings")
        assert answer == case["answer"], case["name"]
        assert bindings == [c.binding for c in fit_cases.answer(case).clearances], case["name"]
    for case, found in zip(asked["sites"], answers["sites"], strict=True):
        assert found == case["findings"], case["name"]
