"""The same question, the same plan: in any process, with any hash seed, however busy the machine is."""

from __future__ import annotations

import hashlib
import os
import random
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from cutting_instances import FOOT, INCH, furniture, uniform
from yardwright.domain import cutting
from yardwright.domain.cutting import highs, plan
from yardwright.domain.cutting.model import CutRules, CuttingPlan, NeededPart, StockLine


def several() -> list[CuttingPlan]:
    """Boards with and without prices of cuts, sheets of one and of many, rolls."""
    group = furniture(24)
    priced = replace(group.rules, crosscut_cost=20.0, setup_cost=40.0, offcut_credit_per_m=50.0)
    rng = random.Random(5)
    panels = [
        NeededPart(f"P{n}", rng.randint(10, 50) * INCH, rng.randint(6, 30) * INCH, rng.randint(1, 3),
                   rng.choice(("along", "either")))
        for n in range(9)
    ]
    sheets = [StockLine("4x8", 8 * FOOT, 4 * FOOT, 6695, "sheet"),
              StockLine("5x5", 5 * FOOT, 5 * FOOT, 5900, "sheet")]
    rolls = [StockLine(f"R{w}", FOOT, w * INCH, 10 * w, "roll", longest_nm=50 * FOOT) for w in (36, 48)]
    kerf = CutRules(INCH // 8, INCH // 8)
    return [
        plan(group.parts, group.stock, group.rules), plan(group.parts, group.stock, priced),
        plan(panels[:4], sheets, kerf), plan(panels, sheets, kerf),
        plan(panels, rolls, CutRules(0, 0, overlap_nm=4 * INCH)),
    ]


def digest() -> str:
    return hashlib.sha256(repr(several()).encode()).hexdigest()


@pytest.mark.parametrize("seed", ["0", "77"])
def test_another_process_with_another_hash_seed_gives_the_same_plans(seed: str) -> None:
    here = [str(Path(__file__).parent), *sys.path]
    env = {**os.environ, "PYTHONPATH": os.pathsep.join(here), "PYTHONHASHSEED": seed}
    code = "import test_determinism as t; print(t.digest())"
    other = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, env=env)
    assert other.stdout.strip() == digest()


def test_no_planner_reads_a_clock() -> None:
    for path in Path(cutting.__file__).parent.glob("*.py"):
        words = path.read_text(encoding="utf-8")
        assert "import time" not in words and "perf_counter" not in words and "datetime" not in words, path


def test_an_answer_the_brake_stopped_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    group = uniform(1, 60)
    assert plan(group.parts, group.stock, group.rules).stopped == ""
    monkeypatch.setattr(highs, "BRAKE_S", 0.0)
    braked = plan(group.parts, group.stock, group.rules)
    assert (braked.status, braked.stopped) == ("bounded", "clock")
    assert braked.lower_bound < braked.cost


def test_the_brake_is_far_from_what_a_plan_takes() -> None:
    assert highs.BRAKE_S >= 10.0
