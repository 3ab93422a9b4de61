"""The planner over seeded groups: share proven, time, stated gap. Writes tests/bench/cutting.md.

Run by ``make bench-cutting``. Times are processor time of one single-threaded process, so that other work
on the machine counts little; the first solve, which loads the solver, is left out. Every plan is checked by
the independent checker.
"""

from __future__ import annotations

import platform
import statistics
import sys
import time
from collections.abc import Sequence
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from builders import demo_shop, demo_shop_metric
from cutting_checker import faults_of
from cutting_instances import Group, furniture, merged, schwerin_waescher, times, triplets, uniform
from yardwright.domain.cutting import plan, plan_job
from yardwright.domain.parts import cut_list
from yardwright.domain.piece import build
from yardwright.domain.template import sizes

TABLE = Path(__file__).with_suffix(".md")
HEAD = (
    "| group | n | proven | median ms | p95 ms | most ms | mean gap | worst gap | invalid |\n"
    "|---|---|---|---|---|---|---|---|---|\n"
)


def measured(name: str, groups: Sequence[Group], effort: str = "normal") -> str:
    """One row of the table."""
    took, gaps, plans, proven, invalid = [], [], [], 0, 0
    for group in groups:
        start = time.process_time()
        plans.append(plan(group.parts, group.stock, group.rules, effort))
        took.append((time.process_time() - start) * 1000)
    for group, made in zip(groups, plans, strict=True):  # afterwards: the checker is not what is timed
        proven += made.status == "optimal"
        gaps.append((made.cost - made.lower_bound) / made.cost)
        invalid += bool(faults_of(made, group.parts, group.stock, group.rules))
    return (
        f"| {name} | {len(groups)} | {proven / len(groups):.1%} | {statistics.median(took):.1f} | "
        f"{percentile(took, 95):.1f} | {max(took):.0f} | {statistics.mean(gaps):.3%} | "
        f"{max(gaps):.2%} | {invalid} |"
    )


def percentile(values: Sequence[float], share: int) -> float:
    """The value that ``share`` percent do not exceed."""
    return sorted(values)[min(len(values) - 1, len(values) * share // 100)]


def families() -> list[str]:
    """One-dimensional families: share proven optimal, share within one board of the bound."""
    rows = ["| family | n | optimal | within one board | median ms | most ms |", "|---|---|---|---|---|---|"]
    made_by = [
        *((f"uniform, {n} items", lambda seed, n=n: uniform(seed, n), 20) for n in (60, 120, 250)),
        ("uniform, 500 items", lambda seed: uniform(seed, 500), 10),
        ("triplets, 60 items", lambda seed: triplets(seed, 60), 20),
        ("triplets, 120 items", lambda seed: triplets(seed, 120), 6),
        ("triplets, 249 items", lambda seed: triplets(seed, 249), 2),
        *(
            (f"Schwerin-Waescher, {n} items", lambda seed, n=n: schwerin_waescher(seed, n), 10)
            for n in (100, 120)
        ),
    ]
    total = optimal = near = 0
    for name, make, number in made_by:
        took, proven, close = [], 0, 0
        for seed in range(1, number + 1):
            group = make(seed)
            start = time.process_time()
            made = plan(group.parts, group.stock, group.rules)
            took.append((time.process_time() - start) * 1000)
            assert not faults_of(made, group.parts, group.stock, group.rules)
            proven += made.status == "optimal"
            close += made.cost - made.lower_bound <= 1
        rows.append(
            f"| {name} | {number} | {proven / number:.0%} | {close / number:.0%} | "
            f"{statistics.median(took):.0f} | {max(took):.0f} |"
        )
        print(rows[-1], flush=True)
        total, optimal, near = total + number, optimal + proven, near + close
    rows.append(f"| all | {total} | {optimal / total:.0%} | {near / total:.0%} | | |")
    return rows


def whole_jobs() -> list[str]:
    """The whole cutting of one piece of each catalogue template, in both demonstration shops."""
    rows = ["| template | shop | groups | proven | median ms |", "|---|---|---|---|---|"]
    every, number, all_proven = [], 0, 0
    for shop in (demo_shop(), demo_shop_metric()):
        for template in shop.templates.values():
            dimensions, choices = sizes(template, {}, {}, shop.units)
            parts = cut_list([(build(template, dimensions, choices, shop, shop.units), 1)], shop)
            took = []
            for _ in range(9):
                start = time.process_time()
                _, groups = plan_job(parts, shop)
                took.append((time.process_time() - start) * 1000)
            proven = sum(group.plan.status == "optimal" for group in groups)
            every.append(statistics.median(took))
            number, all_proven = number + len(groups), all_proven + proven
            rows.append(
                f"| {template.id} | {shop.units} | {len(groups)} | {proven} | {statistics.median(took):.1f} |"
            )
    rows.append(f"| all | | {number} | {all_proven} | {statistics.median(every):.1f} |")
    return rows


def main() -> None:
    """Measure, print, write the table."""
    first = furniture(1)
    plan(first.parts, first.stock, first.rules)
    rows = []
    for name, groups in (
        ("furniture, one product", [furniture(seed) for seed in range(1, 161)]),
        ("one product x 50", [times(furniture(seed), 50) for seed in range(1, 31)]),
        ("twelve products merged", [merged(seed) for seed in range(1, 13)]),
    ):
        rows.append(measured(name, groups))
        print(rows[-1], flush=True)
    text = (
        "# Cutting planner, measured\n\nWritten by `make bench-cutting`, effort `normal`; groups by the "
        f"recipes of tests/cutting_instances.py. Python {platform.python_version()}, one process, processor "
        "time.\n\n"
        + HEAD
        + "\n".join(rows)
        + "\n\n"
        + "\n".join(families())
        + "\n\n"
        + "\n".join(whole_jobs())
        + "\n"
    )
    TABLE.write_text(text, encoding="utf-8")
    print(text)


if __name__ == "__main__":
    main()
