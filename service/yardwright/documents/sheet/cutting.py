"""Cutting on paper: each group's plan, a diagram for every different layout, the saw's steps in order."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable, KeepTogether, Paragraph, Spacer

from yardwright.domain.cutting.model import CuttingGroup, CuttingPlan, Layout
from yardwright.domain.measure import Writer

from ..cutting_diagram import cutting_diagram, sequence
from ..cutting_steps import kept, runs, said, saw_steps
from ..drawing.pdf import Drawn, legible
from ..pages.tables import section, subhead
from ..pages.words import FAINT, FINE, SMALL, STRONG, bullet, para, say
from .names import titled

_TALLEST = 230.0


def diagrams(groups: Sequence[CuttingGroup], writer: Writer, width: float) -> list[Flowable]:
    """Every group of the job; layouts that are alike are drawn once, with their number."""
    story: list[Flowable] = section("Cutting", 150.0) if groups else []
    for group in groups:
        story += [*subhead(titled(group.name), 150.0), para(verdict(group.plan), FAINT)]
        for numbers, layout in alike(group.plan.layouts):
            story.append(_layout(layout, numbers, writer, width))
        story.append(_set_ups(group.plan, writer))
    return story


def _set_ups(plan: CuttingPlan, writer: Writer) -> Flowable:
    """All boards' cuts by setting, for a shop that cuts every board to one stop before it moves it."""
    lines = [bullet(line, FINE) for line in sequence(plan, writer)]
    title = para(f"By set-up, all {len(plan.layouts)} together", STRONG)
    if len(plan.layouts) < 2 or not lines:
        return Spacer(0, 0)
    return KeepTogether([Spacer(0, 6), title, *lines, Spacer(0, 8)])


def verdict(plan: CuttingPlan) -> str:
    """How good the plan is, in words: proven, or how far from the least it can be at most."""
    used = f"{plan.yield_share * 100:.0f} % of the stock becomes parts"
    if plan.status == "optimal":
        return f"Proven the cheapest; {used}."
    if plan.status == "estimate":
        return "An estimate: boards of random width, laid out as if all had the usual width."
    over = (plan.cost - plan.lower_bound) / plan.lower_bound * 100 if plan.lower_bound else 0.0
    stopped = {"steps": ", search stopped at its step limit", "clock": ", search stopped by the clock"}
    return f"At most {over:.1f} % above the cheapest possible{stopped.get(plan.stopped, '')}; {used}."


def alike(layouts: Sequence[Layout]) -> list[tuple[tuple[int, ...], Layout]]:
    """Different layouts in their order, each with the numbers of the boards that are cut so, from 1."""
    numbered: dict[tuple[object, ...], tuple[list[int], Layout]] = {}
    for number, layout in enumerate(layouts, 1):
        key = (layout.code, layout.length_nm, layout.width_nm, layout.parts, layout.offcuts)
        numbered.setdefault(key, ([], layout))[0].append(number)
    return [(tuple(numbers), layout) for numbers, layout in numbered.values()]


def _layout(layout: Layout, numbers: Sequence[int], writer: Writer, width: float) -> Flowable:
    """The steps in words have the numbers that stand at their cuts in the picture."""
    size = f"{writer.length(layout.length_nm)} × {writer.length(layout.width_nm)}"
    which = f"{runs(numbers)}:  {len(numbers)} × {layout.code}, {size}"
    drawing = legible(cutting_diagram(layout, writer), width, _TALLEST)
    told = [f'<font name="Yard-Bold">{n}</font>\u00a0{say(said(step, writer))}.'
            for n, step in enumerate(saw_steps(layout), 1)]
    told += [f"{say(kept(layout.offcuts, writer))}."] if kept(layout.offcuts, writer) else []
    return KeepTogether([
        Spacer(0, 5), para(which, STRONG), Spacer(0, 2),
        Drawn(drawing, width, _TALLEST, align="LEFT"), Spacer(0, 2), Paragraph("  ".join(told), SMALL)])
