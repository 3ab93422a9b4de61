"""Every plan made in any test of this process is checked by code the planner does not share.

The three planners are wrapped once for the whole run: boards, sheets and rolls, whoever asks for a plan.
"""

from __future__ import annotations

import functools
import importlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from unittest import mock

from cutting_checker import faults_of
from cutting_checker_sheets import faults_of_rolls, faults_of_sheets
from yardwright.domain.cutting.model import CuttingPlan

Planner = Callable[..., CuttingPlan]


@contextmanager
def every_plan_checked() -> Iterator[None]:
    """While it lasts, a plan that cannot be cut as drawn fails the test that asked for it."""
    home = "yardwright.domain.cutting."
    planners = [("plan", "_plan_boards", faults_of), ("sheets", "plan_sheets", faults_of_sheets),
                ("rolls", "plan_rolls", faults_of_rolls)]
    patches = []
    for module, name, faults in planners:
        found = importlib.import_module(home + module)
        patches.append(mock.patch.object(found, name, _checked(getattr(found, name), faults)))
    for patch in patches:
        patch.start()
    try:
        yield
    finally:
        for patch in patches:
            patch.stop()


def _checked(planner: Planner, faults: Callable[..., list[str]]) -> Planner:
    @functools.wraps(planner)
    def planned(parts, stock, rules, effort):  # type: ignore[no-untyped-def]
        made = planner(parts, stock, rules, effort)
        marks = [part.mark for part in parts]
        if made.layouts and len(set(marks)) == len(marks) and len(made.layouts) <= 300:
            wrong = faults(made, parts, stock, rules)
            assert not wrong, wrong
        return made

    return planned
