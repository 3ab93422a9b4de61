"""The cut list on paper: mark, part and hand, count, stock, first cut, finished size, a box to tick."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from reportlab.platypus import Flowable

from yardwright.domain.cutting.model import CuttingGroup
from yardwright.domain.measure import Writer
from yardwright.domain.parts import Part

from ..pages.tables import ruled, section, subhead
from ..pages.words import BODY, FAINT, RIGHT, SMALL, STRONG, para
from .names import plain_words


def cut_list(items: Sequence[tuple[str, Sequence[Part]]], cutting: Sequence[CuttingGroup], writer: Writer,
             width: float) -> list[Flowable]:
    """The parts of every item, in the order of their marks."""
    bought = sheets_and_rolls(cutting)
    story: list[Flowable] = section("Cut list", 120.0)
    for name, parts in items:
        story += subhead(name)
        story.append(ruled(("Mark", "Part and work on it", "Number", "Cut from", "First cut", "Finished", ""),
                           [_row(part, bought, writer) for part in parts],
                           (30, width - 30 - 44 - 92 - 60 - 132 - 14, 44, 92, 60, 132, 14), right=(2,)))
    return story


def sheets_and_rolls(cutting: Sequence[CuttingGroup]) -> dict[str, str]:
    """By mark, the codes of what its layouts are cut from: the roll bought, not the one asked for."""
    found: dict[str, dict[str, None]] = {}
    for layout in (layout for group in cutting for layout in group.plan.layouts):
        for part in layout.parts:
            found.setdefault(part.mark, {})[layout.code] = None
    return {mark: ", ".join(codes) for mark, codes in found.items()}


def _row(part: Part, bought: Mapping[str, str], writer: Writer) -> list[Flowable | list[Flowable]]:
    name = part.name + (f", {part.hand} hand" if part.hand else "")
    words: list[Flowable] = [para(name, BODY)]
    if work := "; ".join((*part.shape, *part.notes)):
        words.append(para(work, FAINT))
    stock = " ".join(w for w in (part.section, plain_words(part.timber), part.grade) if w)
    if part.material != "board":
        stock = bought.get(part.mark, stock)
    first = "" if part.rough_length_nm == part.length_nm else writer.length(part.rough_length_nm)
    return [para(part.mark, STRONG), words, para(part.count, RIGHT), para(stock, SMALL), para(first, SMALL),
            para(", ".join((finished(part, writer), *_width_note(part))), SMALL), para("☐", BODY)]


def finished(part: Part, writer: Writer) -> str:
    """Finished length × width × thickness."""
    return " × ".join(writer.length(v) for v in (part.length_nm, part.width_nm, part.thickness_nm))


def _width_note(part: Part) -> list[str]:
    if part.material != "board":
        return [f"grain {part.grain}"] if part.grain else []
    return [] if part.full_width else ["ripped"]
