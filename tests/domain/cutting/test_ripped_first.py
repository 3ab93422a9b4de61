"""Large jobs: rows of strips settled before boards, on every kind of stock."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from cutting_checker import faults_of
from cutting_instances import any_group, merged
from yardwright.domain.cutting import plan
from yardwright.domain.cutting.columns import Generated, generate
from yardwright.domain.cutting.fill import fill
from yardwright.domain.cutting.model import NeededPart
from yardwright.domain.cutting.pricing import Pricer
from yardwright.domain.cutting.problem import Problem, read_problem
from yardwright.domain.cutting.ripped_first import unripped


def fractional(problem: Problem) -> tuple[Pricer, Generated]:
    by_hand, pricer = fill(problem), Pricer(problem)
    assert by_hand is not None
    made = generate(problem, pricer, [pattern for pattern, _ in by_hand], 30, 1e9)
    assert made is not None
    return pricer, made


def test_rows_give_every_ripped_part_once_and_leave_the_others_as_they_were() -> None:
    group = merged(8)
    problem = read_problem(group.parts, group.stock, group.rules)
    job, braked = unripped(problem, *fractional(problem))
    assert job is not None
    assert not braked
    given: Counter[int] = Counter()
    for size, behind in zip(job.problem.sizes, job.sizes, strict=True):
        assert size.width_nm == size.only_nm == problem.boards[0].width_nm
        if isinstance(behind, int):
            given[behind] += size.most
            assert size.length_nm == problem.sizes[behind].length_nm
        else:
            assert len(behind) == size.most
            given.update(i for row in behind for strip in row.strips for i in strip.sizes)
            assert all(row.length_nm == size.length_nm for row in behind)
    assert given == Counter({i: size.most for i, size in enumerate(problem.sizes)})
    by_hand = fill(job.problem)
    assert by_hand is not None
    supplied = [0] * len(problem.needs)
    for pattern, times in job.lift(by_hand):
        supplied = [s + times * g for s, g in zip(supplied, pattern.supply, strict=True)]
    assert all(s >= need.count for s, need in zip(supplied, problem.needs, strict=True))


def test_a_job_without_rips_or_with_matched_strips_is_left_to_the_other_way() -> None:
    group = merged(8)
    width = group.stock[0].width_nm
    plain = read_problem([p for p in group.parts if p.width_nm == width], group.stock, group.rules)
    assert unripped(plain, *fractional(plain)) == (None, False)
    strips = [NeededPart(mark, 500_000_000, 40_000_000, 2, matched="leg", sets=2) for mark in ("M1", "M2")]
    matched = read_problem([*group.parts, *strips], group.stock, group.rules)
    assert unripped(matched, *fractional(matched)) == (None, False)


@pytest.mark.parametrize("seed", range(12))
def test_large_jobs_on_counted_blocked_and_several_widths_of_stock_can_be_cut(seed: int) -> None:
    """Invented: six of the small groups of every rule at once, in different numbers, as one job."""
    groups = [any_group(6 * seed + n) for n in range(6)]
    stock = {line.code: line for group in groups for line in group.stock}
    rules = groups[0].rules
    parts = tuple(
        replace(
            part, mark=f"{n}{part.mark}", count=part.count * (n + 2), matched="", sets=0, trim_edges=False
        )
        for n, group in enumerate(groups)
        for part in group.parts
        if rules.least_strip_nm <= part.width_nm <= 20 and part.length_nm <= 50
    )
    lines = (*stock.values(), replace(groups[0].stock[0], code="any", width_nm=20, length_nm=144, count=None))
    made = plan(parts, lines, replace(rules, longest_carry_nm=None))
    assert faults_of(made, parts, lines, replace(rules, longest_carry_nm=None)) == []
    assert made.lower_bound <= made.cost
