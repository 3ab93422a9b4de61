"""The items of a quote: a picture and the choices, then measured views, sizes and what is included."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from reportlab.platypus import Flowable, Spacer

from ..drawing.model import Drawing
from ..drawing.pdf import Drawn
from ..pages.tables import facts, plain, section, subhead
from ..pages.words import ITEM, bullet, length, para
from .views import view_rows

Json = Mapping[str, Any]


def overview(items: Sequence[Json], drawings: Sequence[Drawing], width: float) -> list[Flowable]:
    """Each item as a picture with its size and choices beside it; one item alone is shown large."""
    story: list[Flowable] = []
    for number, item in enumerate(items):
        large = len(items) == 1
        picture = next((d for d in drawings if d.item == number and d.view == "isometric"), None)
        shown = 0.52 if large else 0.3
        left = width * shown
        side: list[Flowable] = [para(named(item, number, items), ITEM), _choices(item, width - left - 18)]
        cell: list[Flowable] | str = [Drawn(picture, left, 235 if large else 120)] if picture else ""
        story.append(plain([[cell, "", side]], (left, 18, width - left - 18),
                           (("VALIGN", (0, 0), (-1, -1), "MIDDLE"), ("TOPPADDING", (0, 0), (-1, -1), 6),
                            ("BOTTOMPADDING", (0, 0), (-1, -1), 6))))
    return story


def named(item: Json, number: int, items: Sequence[Json]) -> str:
    """An item's name as the paper heads it: numbered where there are several."""
    name = str(item.get("template_name") or item.get("template", ""))
    count = int(item.get("quantity") or 1)
    before = f"{number + 1}.  " if len(items) > 1 else ""
    return f"{before}{name}" + (f"  ×  {count}" if count != 1 else "")


def _choices(item: Json, width: float) -> Flowable:
    overall = item.get("overall") or {}
    size = " × ".join(length(overall[k]) for k in ("length", "depth", "height") if k in overall)
    chosen = [(str(k), v) for k, v in (item.get("choice_labels") or item.get("choices") or {}).items()]
    return facts([("Overall size", size), *chosen], width, label=94)


def details(items: Sequence[Json], drawings: Sequence[Drawing], width: float) -> list[Flowable]:
    """Measured views, sizes and contents of every item."""
    story: list[Flowable] = section("What you get", 330.0)
    for number, item in enumerate(items):
        own = [d for d in drawings if d.item == number]
        if len(items) > 1:
            story += subhead(named(item, number, items), 200.0)
        story.append(contents(item, width))
        story += view_rows(own, width, compact=len(items) > 1)
        story.append(Spacer(0, 8))
    return story


def contents(item: Json, width: float) -> Flowable:
    """What is included in words to the left, sizes as chosen to the right."""
    right = 190.0
    words: list[Flowable] = [bullet(line) for line in item.get("included") or ()]
    return plain([[words or "", "", facts(_sizes(item), right, label=88)]], (width - right - 16, 16, right),
                 (("BOTTOMPADDING", (0, 0), (-1, -1), 6),))


def _sizes(item: Json) -> list[tuple[str, object]]:
    """Overall sizes, then every other size that says something with these choices, then the weight."""
    overall, chosen = item.get("overall") or {}, item.get("dimensions") or {}
    pairs: list[tuple[str, object]] = [(f"Overall {k}", length(overall[k]))
                                       for k in ("length", "depth", "height") if k in overall]
    labels = item.get("dimension_labels") or {}
    pairs += [(labels.get(k) or k.replace("_", " ").capitalize(), length(v)) for k, v in chosen.items()
              if (k in labels or not labels) and (k not in overall or length(overall[k]) != length(v))]
    if (weight := weight_text(item)):
        pairs.append(("Weight, about", weight))
    return pairs


def weight_text(item: Json) -> str:
    """Weight of one piece in kg and lb (1 lb = 0.45359237 kg)."""
    try:
        kg = float(item["weight_kg"])
    except (KeyError, TypeError, ValueError):
        return ""
    return f"{kg:.0f} kg / {kg / 0.45359237:.0f} lb"
