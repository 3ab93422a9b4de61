"""A plank bench with faults to be mended: seat boards on bearers that stand on the ground, too far apart."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from builders import demo_shop
from yardwright.domain import checks
from yardwright.domain.shop import Shop
from yardwright.domain.template import read_template


def plank_bench(least: str, most: str, asked: str, closer: int = 0, heavier: tuple[str, ...] = (),
                timbers: tuple[str, ...] = ("western-red-cedar",), bearers: int = 2) -> dict[str, Any]:
    """From ``least`` to ``most`` long on so many bearers, or on ``closer`` of them where that is offered."""
    seat: dict[str, Any] = {"sections": ["5/4x6"], "label": "Seat boards", "heavier": [*heavier]}
    supports = {"label": "Bearers", "about": "make", "options": [
        {"id": "usual", "label": "As usual"}, {"id": "closer", "label": "Closer together"}]}
    count = f"choose(supports == 'closer', {closer}, {bearers})" if closer else f"{bearers}"
    return {
        "id": "plank-bench", "name": "Plank bench", "timbers": [*timbers], "finishes": ["none"],
        "dimensions": {"length": {"label": "Length", "default": asked, "min": least, "max": most,
                                  "step": "1 in"}},
        "choices": {"supports": supports} if closer else {},
        "boards": {"seat": seat, "bearer": {"sections": ["2x4"]}},
        "values": {"bearers": count, "pitch": "(length - 6*inch)/(bearers - 1)",
                   "row": "seat.width + 1/4*inch"},
        "overall": {"length": "length", "depth": "2*seat.width + 1/4*inch",
                    "height": "bearer.width + seat.thickness"},
        "fit": {"envelope": {"length": "length", "depth": "12*inch", "height": "6*inch"}},
        "members": [
            {"name": "Bearer", "board": "bearer", "repeat": [{"index": "k", "count": "bearers"}],
             "from": ["3*inch + k*pitch - bearer.thickness/2", "0*inch", "0*inch"],
             "to": ["3*inch + k*pitch - bearer.thickness/2", "2*seat.width + 1/4*inch", "0*inch"],
             "wide": "up", "thick": "right"},
            {"name": "Seat board", "board": "seat", "repeat": [{"index": "n", "count": "2"}],
             "from": ["0*inch", "n*row", "bearer.width"], "to": ["length", "n*row", "bearer.width"],
             "wide": "back", "thick": "up"}],
        "joints": [{"name": "Boards to bearers", "of": ["Seat board"], "to": ["Bearer"], "fasten": "screws",
                    "per_contact": "2"}],
        "checks": [{"rule": "seat load", "members": ["Seat board"]}],
    }


def shop_with(data: dict[str, Any]) -> Shop:
    """The demonstration shop with that template too."""
    made = checks.with_known_checks(read_template(data))
    return replace(demo_shop(), templates={**demo_shop().templates, made.id: made})
