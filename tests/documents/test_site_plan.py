"""The measured space in plan: drawn as measured, things on walls numbered and listed, words apart."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest

from documents.sample import bench
from yardwright.documents.drawing.model import Drawing, Line, Polygon, Text, text_box
from yardwright.documents.drawing.site_plan import site_plan
from yardwright.domain.fit import Clearance, Fit
from yardwright.domain.measure import Writer
from yardwright.domain.site import Corner, Diagonal, Measured, Obstruction, Site, Wall

MM = 1_000_000
METER = Obstruction("gas meter", 900 * MM, 1100 * MM, 150 * MM, 500 * MM, 1000 * MM)
PIPE = Obstruction("downpipe", 400 * MM, 480 * MM, 90 * MM)
BACK = Wall("back", (Measured(1300 * MM, 900 * MM), Measured(1290 * MM, 0)), obstructions=(METER,))
BETWEEN = Site("between walls", (BACK, Wall("left", (Measured(800 * MM),), obstructions=(PIPE,))),
               (Corner("left", 86.0),), (Measured(1400 * MM), Measured(1380 * MM)))
FIT = Fit(True, (Clearance("behind", 25 * MM, 20 * MM, "back wall"),), ((40 * MM, 120 * MM),),
          {}, None, MM, ())


def plan(site: Site, fit: Fit | None = FIT) -> Drawing:
    return site_plan(bench(), site, fit, Writer("mm"), "Bench")


def words(drawing: Drawing) -> list[str]:
    return [s.text for s in drawing.shapes if isinstance(s, Text)]


def test_the_shortest_reading_and_the_shortest_depth_count() -> None:
    assert "1290 mm least" in words(plan(BETWEEN))
    assert "1380 mm free" in words(plan(BETWEEN))


def test_things_on_walls_are_numbered_and_listed() -> None:
    drawn = plan(BETWEEN)
    assert "1  gas meter, 900 mm to 1100 mm, out 150 mm, from 500 mm high, up to 1000 mm" in drawn.notes
    assert "2  downpipe on the left wall, 400 mm to 480 mm, out 90 mm" in drawn.notes
    assert {"1", "2"} <= set(words(drawn))
    assert all(note in " ".join(words(drawn)) for note in drawn.notes)


def test_without_its_list_the_plan_keeps_its_numbers_and_its_notes() -> None:
    alone = site_plan(bench(), BETWEEN, FIT, Writer("mm"), "Bench", listed=False)
    assert {"1", "2"} <= set(words(alone)) and len(alone.notes) > 2
    assert not any(word.startswith("1  gas meter") for word in words(alone))


def test_free_distances_leaning_walls_and_corners_off_square_are_said() -> None:
    leaning = Wall("back", (Measured(1300 * MM, 900 * MM), Measured(1290 * MM, 0)), 19 * MM, 1800 * MM)
    tight = replace(FIT, clearances=(*FIT.clearances, Clearance("front", -5 * MM, 0, "depth")))
    notes = site_plan(bench(), replace(BETWEEN, walls=(leaning,)), tight, Writer("mm"), "Bench").notes
    assert notes == ("Free: 25 mm behind", "Short: 5 mm too little in front",
                     "The back wall leans in 19 mm over 1800 mm of height (dashed)",
                     "Readings at the back wall: 1300 mm at 900 mm high; 1290 mm at 0 mm high",
                     "The left corner closes in: 86°")


def test_a_leaning_wall_is_dashed_as_far_in_as_its_top_stands() -> None:
    leaning = replace(BACK, out_of_plumb_nm=19 * MM, plumb_over_nm=1800 * MM, obstructions=())
    dashed = [s.points for s in plan(Site("against a wall", (leaning,)), None).shapes
              if isinstance(s, Line) and s.style == "open"]
    assert dashed == [((0.0, -19.0), (1290.0, -19.0))]


def test_the_free_distance_in_front_is_drawn_from_the_piece_to_the_reading() -> None:
    roomy = replace(FIT, clearances=(Clearance("front", 777 * MM, 0, "depth"),))
    assert "777 mm free" in words(plan(BETWEEN, roomy))


@pytest.mark.parametrize("listed", [True, False])
def test_words_of_the_plan_read_on_a_phone(listed: bool) -> None:
    for site in (BETWEEN, Site("against a wall", (BACK,)), Site("corner")):
        drawing = site_plan(bench(), site, FIT, Writer("mm"), "Bench", listed)
        heights = [s.height_mm for s in drawing.shapes if isinstance(s, Text)]
        assert min(heights) / drawing.bounds.width * 360 >= 10


def test_a_thing_stands_where_it_was_measured() -> None:
    (meter, _) = [s for s in plan(BETWEEN).shapes if isinstance(s, Polygon) and s.edge == "site"]
    xs, ys = zip(*meter.points, strict=True)
    assert (min(xs), max(xs), min(ys), max(ys)) == (900, 1100, -150, 0)


def test_the_piece_stands_in_the_middle_of_where_it_can_and_off_the_wall() -> None:
    lines = [s for s in plan(BETWEEN).shapes if isinstance(s, Line) and s.style == "thin"]
    xs = [p[0] for line in lines for p in line.points]
    ys = [p[1] for line in lines for p in line.points]
    assert min(xs) == pytest.approx(80, abs=1) and max(xs) == pytest.approx(1200, abs=1)
    assert max(ys) <= -20 + 0.01


def test_a_corner_closing_in_leans_into_the_space() -> None:
    # 86° inside: after 1380 mm out the wall stands 1380 cos 86° = 96 mm in (recomputed by trigonometry).
    ends = [s.points[1] for s in plan(BETWEEN).shapes if isinstance(s, Line) and s.style == "outline"
            and s.points[0] == (0.0, 0.0) and s.points[1][1] < -100]
    assert ends and ends[0][0] == pytest.approx(96.3, abs=1)


def test_a_corner_taken_by_three_readings_is_drawn_at_their_angle() -> None:
    taken = Corner("right", diagonals=(Diagonal(900 * MM, 1200 * MM, 1500 * MM),))
    shapes = plan(Site("corner", (BACK,), (taken,)), None).shapes
    lines = [s for s in shapes if isinstance(s, Line) and s.style == "outline"]
    walls = [line for line in lines if line.points[0] == (1290.0, 0.0)]
    assert walls and walls[0].points[1][0] == pytest.approx(1290, abs=0.01)     # 3-4-5: a right angle


@pytest.mark.parametrize("site", [
    BETWEEN, Site("against a wall", (BACK,)), Site("corner"), Site("between walls"),
    Site("against a wall", (Wall("back", (), obstructions=tuple(
        Obstruction(f"vent number {n}", n * 200 * MM, (n * 200 + 150) * MM, 30 * MM) for n in range(12))),))])
@pytest.mark.parametrize("fit", [FIT, None, Fit(False, (), (), {}, None, 0, ())])
def test_words_in_the_plan_stand_clear_of_each_other(site: Site, fit: Fit | None) -> None:
    boxes = [text_box(s) for s in plan(site, fit).shapes if isinstance(s, Text)]
    assert not [pair for pair in combinations(boxes, 2) if pair[0].overlaps(pair[1])]
