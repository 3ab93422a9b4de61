"""The measured space on paper: the plan, free distances by side, the way in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from reportlab.platypus import Flowable, Spacer

from ..drawing.model import Drawing
from ..drawing.pdf import Drawn, legible
from ..pages.fitting import FirstThatFits
from ..pages.tables import plain, ruled
from ..pages.words import CAPTION, FAINT, ITEM, LABEL, SECTION, SMALL, STRONG, length, para
from .items import named

Json = Mapping[str, Any]

# Heights of the plan in points, tried in turn for the room that is left on the page.
_TALLEST = (230.0, 200.0, 170.0, 145.0)
_LONGEST = 150               # letters of a way in that is told beside the plan
_SIDES = {"along": "Along, both ends together", "left": "Left", "right": "Right", "front": "In front",
          "behind": "Behind", "above": "Above", "wing": "Beyond its wing", "across": "Across from its wing"}


def space(items: Sequence[Json], drawings: Sequence[Drawing], width: float) -> list[Flowable]:
    """Plan and clearances of every item that has a measured space; nothing where nobody measured."""
    story: list[Flowable] = []
    for number, item in enumerate(items):
        plan = next((d for d in drawings if d.item == number and d.view == "site"), None)
        fit = item.get("fit")
        if plan is None and not _told(fit):
            continue
        head: list[Flowable] = [] if story else [para(_title(items), SECTION)]
        head += [para(named(item, number, items), ITEM)] if len(items) > 1 else []
        sizes = [_side_by_side(plan, item, width, high) for high in (_TALLEST if plan else _TALLEST[:1])]
        story.append(FirstThatFits([[*head, one, Spacer(0, 6)] for one in sizes]))
    return story


def _title(items: Sequence[Json]) -> str:
    measured = any((item.get("fit") or {}).get("clearances") for item in items)
    return "The measured space" if measured else "The way in"


def space_block(item: Json, plan: Drawing | None, width: float, high: float) -> list[Flowable]:
    """The measured space of one item, its plan no higher than ``high`` points; nothing where not measured."""
    fit = item.get("fit")
    if plan is None and not _told(fit):
        return []
    return [Spacer(0, 8), para(_title([item]), SECTION), _side_by_side(plan, item, width, high)]


def _way(item: Json, detail: str) -> str:
    """How it goes in; where that is a finding of its own, its title, for the finding says it in full."""
    found = [f for f in item.get("findings") or () if f.get("detail") and str(f["detail"]) in detail]
    if len(detail) <= _LONGEST or not found:
        return detail
    return "; ".join(str(f.get("title", "")) for f in found) + ". More under “What we checked”."


def _told(fit: Json | None) -> bool:
    """Whether there is anything to say: some clearance, or a way in."""
    return bool(fit and (fit.get("clearances") or fit.get("way_in")))


def _side_by_side(plan: Drawing | None, item: Json, width: float, high: float) -> Flowable:
    if plan is None or not item.get("fit"):
        return plain([[_plan(plan, width * 0.62, high) if plan else _fit(item, width)]], (width,))
    left = width * 0.5
    right = width - left - 18
    return plain([[_plan(plan, left, high), "", _fit(item, right)]], (left, 18, right))


def _plan(plan: Drawing, width: float, high: float) -> list[Flowable]:
    caption = para("From above, the wall behind it at the top", CAPTION)
    return [Drawn(legible(plan, width, high), width, high), Spacer(0, 2), caption,
            *(para(note, FAINT) for note in plan.notes if not note.startswith(("Free:", "Short:", "Way in")))]


def _fit(item: Json, width: float) -> list[Flowable]:
    """Whether it fits, and by how much on each side."""
    fit: Json = item.get("fit") or {}
    rows = [[[para(_SIDES.get(str(c.get("side")), c.get("side")), SMALL), para(c.get("binding", ""), FAINT)],
             para(length(c.get("clearance")), SMALL), para(length(c.get("needed")), SMALL)]
            for c in fit.get("clearances") or ()]
    story: list[Flowable] = []
    if rows:
        story = [para(fit.get("verdict", ""), STRONG), Spacer(0, 4),
                 ruled(("Side, and what decides", "Free", "Needed"), rows, (width - 124, 62, 62))]
    if (way := fit.get("way_in")):
        story += [Spacer(0, 5), para("Way in", LABEL), para(_way(item, str(way.get("detail", ""))), SMALL)]
    if rows and fit.get("uncertainty"):
        story += [Spacer(0, 5), para("Free distances are after the tape's own uncertainty of "
                                     f"{length(fit['uncertainty'])}.", FAINT)]
    return story
