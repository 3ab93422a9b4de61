"""The phone's logic gives the same answers as the service over the shared vector files."""

from __future__ import annotations

import json
import random
import shutil
import subprocess
from pathlib import Path
from typing import Any

import playwright
import pytest

import fit_cases
from yardwright.domain import measure

ROOT = Path(__file__).parents[2]
VECTORS = ROOT / "tests" / "vectors"
MEASURING = "0123456789" * 3 + " '\"-/.,½¾inmftc′″ ⁄¹₂x"


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


def run(logic: Path, which: str, asked: Any = None) -> Any:
    """The phone's answers to the vector file, or to what is asked in its shape."""
    vectors = json.dumps(asked) if asked else (VECTORS / f"{which}.json").read_text(encoding="utf-8")
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
        bindings, mends = answer.pop("bindings"), answer.pop("mends")
        assert answer == case["answer"], case["name"]
        here = fit_cases.answer(case)
        assert bindings == [c.binding for c in here.clearances], case["name"]
        assert mends == [[f.detail, f.mend] for f in here.findings if f.title.startswith("It is too")]
    for case, found in zip(asked["sites"], answers["sites"], strict=True):
        assert found == case["findings"], case["name"]


def test_no_text_is_read_differently_on_the_phone(logic: Path) -> None:
    draw = random.Random(1)
    texts = ["".join(draw.choice(MEASURING) for _ in range(draw.randint(1, 12))) for _ in range(4000)]
    asked = {"write": [], "read": [{"input": t, "unit": draw.choice(["in", "mm", None])} for t in texts]}
    for case, answer in zip(asked["read"], run(logic, "lengths", asked)["read"], strict=True):
        here = measure.examine(case["input"], case["unit"])
        if isinstance(here, measure.Reading):
            assert answer == {"nm": here.nm, "text": here.text, "note": here.note}, case
        else:
            assert (answer["error"], answer["detail"], answer["candidates"]) == (
                here.code, here.detail, list(here.candidates)), case


def test_no_space_is_fitted_differently_on_the_phone(logic: Path) -> None:
    draw = random.Random(2)
    asked = {**cases("fits"), "sites": [], "cases": [some_case(draw) for _ in range(120)]}
    for case, answer in zip(asked["cases"], run(logic, "fits", asked)["cases"], strict=True):
        del answer["bindings"], answer["mends"]
        assert answer == fit_cases.plain(fit_cases.answer(case)), case


def some_case(draw: random.Random) -> dict[str, Any]:
    """A made-up space and a bench for it."""
    def mm(low: int, high: int) -> dict[str, float]:
        return {"mm": draw.randint(low, high) / 2}

    def maybe(name: str, low: int, high: int) -> dict[str, Any]:
        return {name: mm(low, high)} if draw.random() < 0.6 else {}

    def wall(side: str, things: int) -> dict[str, Any]:
        readings = [{"value": mm(1800, 6000), **maybe("at_height", 0, 3000), **maybe("at_depth", 0, 2000)}
                    for _ in range(draw.randint(0, 4))]
        kinds = ["gas meter", "tap", "downpipe", "sill", "door", "window", "birdbath"]
        found = [{"kind": draw.choice(kinds), "from": mm(0, 4000), "to": mm(0, 4000),
                  "projection": mm(0, 500), **maybe("bottom", 0, 2000), **maybe("top", 500, 4000)}
                 for _ in range(things)]
        return {"side": side, "readings": readings, "obstructions": found, **maybe("out_of_plumb", -30, 60),
                "plumb_over": mm(1000, 4000)}

    corners = [{"at": side, "angle": draw.uniform(80, 100)} if draw.random() < 0.5 else {
        "at": side, "diagonals": [{"along": mm(1000, 2000), "out": mm(1000, 2000), "across": mm(1500, 2700)}]}
        for side in ("left", "right") if draw.random() < 0.6]
    kind = draw.choice(["between walls", "corner", "against a wall", "open"])
    site = {"kind": kind, "walls": [wall("back", draw.randint(0, 3))], "corners": corners,
            "depths": [{"value": mm(1000, 4000), **maybe("at_height", 0, 2000)}
                       for _ in range(draw.randint(0, 2))],
            **maybe("height_under", 1200, 4000), **maybe("walkway", 0, 2000)}
    for side in ("left", "right"):
        if draw.random() < 0.4:
            site["walls"].append(wall(side, draw.randint(0, 2)))
    site["access"] = [{"kind": draw.choice(["gate", "stairs", "turn", "passage"]), "width": mm(700, 3000),
                       **maybe("height", 700, 5000), **maybe("width_after", 700, 3000)}
                      for _ in range(draw.randint(0, 2))]
    template = draw.choice(["bench", "chest", "cupboard", "corner"])
    choices = {"lid": draw.choice(["full", "lid"]), "side": draw.choice(["left", "right", "none"])}
    return {"name": "made up", "template": template, "site": site, "choices": choices,
            "units": draw.choice(["in", "mm"])}
