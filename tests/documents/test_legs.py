"""Both legs of an L are dimensioned in plan, alone and in the measured space, and no words meet."""

from __future__ import annotations

from itertools import combinations

import pytest

from documents.pieces import piece_at
from yardwright.documents.drawing.draw import draw
from yardwright.documents.drawing.model import PHONE_TEXT_SHARE, Drawing, Text, text_box
from yardwright.domain.measure import MM
from yardwright.domain.piece.model import Piece
from yardwright.domain.site import Corner, Measured, Site, Wall

SIZES = [{}, {"length": 3000, "wing_length": 1150, "depth": 560}, {"length": 1300, "wing_length": 2700}]


def bench(side: str, sizes_mm: dict[str, int]) -> Piece:
    return piece_at("corner-bench", {k: v * MM for k, v in sizes_mm.items()},
                    {"side": side, "timber": "western-red-cedar", "finish": "none"}, "mm")


def words(drawing: Drawing) -> list[Text]:
    return [s for s in drawing.shapes if isinstance(s, Text)]


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("sizes_mm", SIZES)
def test_the_plan_tells_length_reach_and_both_depths_apart(side: str, sizes_mm: dict[str, int]) -> None:
    made = bench(side, sizes_mm)
    drawing = draw(made, "plan", "mm")
    said = [t.text for t in words(drawing)]
    asked = {name: f"{nm // MM} mm" for name, nm in made.dimensions_nm.items()}
    assert said.count(asked["depth"]) == 2, "of the part along the wall and of the wing"
    assert asked["length"] in said and asked["wing_length"] in said
    assert not any(text_box(a).overlaps(text_box(b)) for a, b in combinations(words(drawing), 2))
    assert min(t.height_mm for t in words(drawing)) / drawing.bounds.width >= 0.9 * PHONE_TEXT_SHARE


def test_a_wing_at_the_left_is_drawn_as_the_mirror_of_one_at_the_right() -> None:
    left, right = (draw(bench(side, {}), "plan", "mm") for side in ("left", "right"))
    middle = 1830 / 2
    flipped = sorted((round(2 * middle - t.at[0]), round(t.at[1]), t.text) for t in words(left))
    assert flipped == sorted((round(t.at[0]), round(t.at[1]), t.text) for t in words(right))


@pytest.mark.parametrize("side", ["left", "right"])
def test_the_measured_space_tells_both_legs_and_what_is_free_in_front(side: str) -> None:
    site = Site("corner", (Wall("back", (Measured(2600 * MM),)), Wall(side, (Measured(2200 * MM),))),
                (Corner(side, 90.0),), (Measured(3000 * MM),))
    drawing = draw(bench(side, {}), "plan", "mm", site=site)
    said = [t.text for t in words(drawing)]
    assert {"640 mm deep", "640 mm", "1520 mm", "1830 mm"} <= set(said)
    assert not any(text_box(a).overlaps(text_box(b)) for a, b in combinations(words(drawing), 2))
