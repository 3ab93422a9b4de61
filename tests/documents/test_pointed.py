"""The drawing of a worst case: its members' numbers can be told apart."""

from __future__ import annotations

from itertools import combinations
from math import hypot

from builders import demo_shop
from yardwright.documents.drawing.model import Text
from yardwright.documents.drawing.pointed import pointed_out
from yardwright.domain.piece import build


def test_numbers_of_members_that_lie_in_each_other_stand_side_by_side() -> None:
    shop = demo_shop()
    piece = build(shop.templates["planter-box"], {"length": 96 * 25_400_000}, {}, shop, "in")
    keys = ["Tie 3", "Bearer 3", "Middle post 3"]
    assert set(keys) <= {m.key for m in piece.members}
    drawing = pointed_out(piece, keys, "they share room", "in")
    numbers = [s for s in drawing.shapes if isinstance(s, Text) and s.text in ("1", "2", "3")]
    assert len(numbers) == 3
    for a, b in combinations(numbers, 2):
        assert hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]) > 1.1 * a.height_mm
