"""Angles called out on a view: of a back boarded with gaps too."""

from __future__ import annotations

import pytest

from builders import demo_shop
from yardwright.documents import draw
from yardwright.documents.drawing.model import Text
from yardwright.domain.piece import build


@pytest.mark.parametrize(("name", "view", "angle"), [
    ("corner-bench", "front", "10° off plumb"), ("corner-bench", "side", "10° off plumb"),
    ("lounge-chair", "side", "18° off plumb"), ("picnic-table", "side", "31.5° off plumb"),
    ("storage-bench", "side", "8° off plumb")])
def test_what_leans_says_by_how_much(name: str, view: str, angle: str) -> None:
    shop = demo_shop()
    piece = build(shop.templates[name], {}, {}, shop, "in")
    assert angle in [s.text for s in draw(piece, view, "in").shapes if isinstance(s, Text)]
