"""Cutting on paper: each group's plan, a diagram for every different layout, the saw's steps in order."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable, KeepTogether, Spacer

from yardwright.domain.cutting.model import CutStep, CuttingGroup, CuttingPlan, Layout
from yardwright.domain.measure import Writer

from ..drawing.pdf import Drawn
from ..pages.tables import section, subhead
from ..pages.words import FAINT, STRONG, para
from .diagram import board_diagram
from .names import titled

_TALLEST = 165.0


def diagrams(groups: Sequence[CuttingGroup], writer: Writer, width: float) -> list[Flowable]:
    """Every group of the job; layouts that are alike are drawn once, with their number."""
    story: list[Flowable] = section("Cutting", 150.0) if groups else []
    for group in groups:
        story += [*subhead(titled(group.name), 150.0), para(verdict(group.plan), FAINT)]
        for layout, count in alike(group.plan.layouts):
            story.append(_layout(layout, count, writer, width))
    return story


def verdict(plan: CuttingPlan) -> str:
    """How good the plan is, in words: proven, or how far from the least it can be at most."""
    used = f"{plan.yield_share * 100:.0f} % of the stock becomes parts"
    if plan.status == "optimal":
        return f"Proven the cheapest; {used}."
    over = (plan.cost - plan.lower_bound) / plan.lower_bound * 100 if plan.lower_bound else 0.0
    stopped = {"steps": ", search stopped at its step limit", "clock": ", search stopped by the clock"}
    return f"At most {over:.1f} % above the cheapest possible{stopped.get(plan.stopped, '')}; {used}."


def alike(layouts: Sequence[Layout]) -> list[tuple[Layout, int]]:
    """Different layouts in their order, each with how many boards are cut so."""
    counted: dict[tuple[object, ...], tuple[Layout, int]] = {}
    for layout in layouts:
        key = (layout.code, layout.length_nm, layout.width_nm, layout.parts, layout.offcuts)
        first, count = counted.get(key, (layout, 0))
        counted[key] = (first, count + 1)
    return list(counted.values())


def _layout(layout: Layout, count: int, writer: Writer, width: float) -> Flowable:
    size = f"{writer.length(layout.length_nm)} × {writer.length(layout.width_nm)}"
    return KeepTogether([
        Spacer(0, 5), para(f"{count} × {layout.code}, {size}", STRONG), Spacer(0, 2),
        Drawn(board_diagram(layout, writer), width, _TALLEST, align="LEFT"), Spacer(0, 2),
        para(".  ".join(f"{n} {said(step, writer)}" for n, step in enumerate(layout.steps, 1)), FAINT)])


def said(step: CutStep, writer: Writer) -> str:
    """One step of the saw in words: "Rip the segment 2 to 4 1/2 in, twice: A3, A4"."""
    words = {"trim": "Trim", "crosscut": "Crosscut", "rip": "Rip"}.get(step.kind, step.kind.capitalize())
    times = {1: "", 2: ", twice"}.get(step.times, f", {step.times} times")
    at = "by" if step.kind == "trim" else "to"
    marks = f": {', '.join(dict.fromkeys(step.marks))}" if step.marks else ""
    return f"{words} {step.piece} {at} {writer.length(step.setting_nm)}{times}{marks}"
