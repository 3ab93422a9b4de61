"""Fit worked by hand: what binds, what is taken from a space, and where a piece can stand."""

from __future__ import annotations

import math
from typing import Any

import pytest

import fit_cases
from yardwright.domain.finding import Level
from yardwright.domain.fit import Clearance, Fit, envelope, uncertainty_nm
from yardwright.domain.measure import INCH, MM

MARK = INCH // 16                # the vectors' shop: 1/16 in, a class II tape, 1/4 in allowance, 1 in of air
VECTORS = fit_cases.VECTORS


def off(length_nm: int) -> int:
    """Class II: 0.3 mm and 0.2 mm for each started metre, and half a sixteenth."""
    metres = -(-length_nm // 1_000_000_000)
    return 300_000 + 200_000 * metres + MARK // 2


def fitted(site: dict[str, Any], template: str = "bench", **case: Any) -> Fit:
    return fit_cases.answer({"template": template, "site": site, **case})


def clearance(found: Fit, side: str) -> Clearance:
    return next(c for c in found.clearances if c.side == side)


def titles(found: Fit, level: Level) -> list[str]:
    return [f.title for f in found.findings if f.level is level]


def between(run: Any, depth: str = "30 in", **more: Any) -> dict[str, Any]:
    readings = run if isinstance(run, list) else [{"value": run}]
    return {"kind": "between walls", "walls": [{"side": "back", "readings": readings}],
            "depths": [{"value": depth}], **more}


def along(run: str, *things: dict[str, Any], **more: Any) -> dict[str, Any]:
    wall = {"side": "back", "readings": [{"value": run}], "obstructions": list(things)}
    return {"kind": "against a wall", "walls": [wall], "depths": [{"value": "80 in"}], **more}


def thing(kind: str, start: str, end: str, out: str, bottom: str | None = None, top: str | None = None
          ) -> dict[str, Any]:
    return {"kind": kind, "from": start, "to": end, "projection": out, "bottom": bottom, "top": top}


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda c: str(c["name"]))
def test_a_space_is_answered_as_the_shared_vectors_say(case: dict[str, Any]) -> None:
    assert fit_cases.plain(fit_cases.answer(case)) == case["answer"]


def test_the_trees_in_the_vectors_are_their_texts_read() -> None:
    for data in VECTORS["templates"].values():
        made = fit_cases.template(data)
        assert [f.tree for _, f in made.fit.values] == [v["tree"] for v in data["fit"]["values"]]
        assert {n: f.tree for n, f in made.fit.envelope.items()} == data["fit"]["envelope"]
        assert (made.fit.wing.tree if made.fit.wing else None) == data["fit"].get("wing")


def test_a_run_between_walls_gives_up_the_tapes_uncertainty_and_both_allowances() -> None:
    found = fitted(between("44 3/4 in"))
    run = 44 * INCH + 3 * INCH // 4
    assert clearance(found, "along").clearance_nm == run - off(run) - 44 * INCH
    assert clearance(found, "along").needed_nm == INCH // 2
    assert found.fits and found.uncertainty_nm == off(run)
    assert found.positions == ((INCH // 4, run - off(run) - INCH // 4 - 44 * INCH),)


def test_a_run_short_by_the_uncertainty_alone_does_not_fit() -> None:
    assert not fitted(between("44 1/2 in")).fits, "44 in and two quarters fill 44 1/2 in before the tape errs"


def test_the_binding_reading_is_named_with_its_height() -> None:
    found = fitted(between([{"value": "48 in", "at_height": "2 in"},
                            {"value": "46 in", "at_height": "18 in"}]))
    assert clearance(found, "along").binding == "back wall, 46 in at 18 in high"


def test_a_reading_above_a_low_piece_does_not_bind_a_high_one_does() -> None:
    site = between([{"value": "48 in", "at_height": h} for h in ("2 in", "30 in")]
                   + [{"value": "44 in", "at_height": "39 in"}])
    assert fitted(site, dimensions={"height": "18 in"}).fits
    assert not fitted(site, dimensions={"height": "40 in"}).fits


def test_between_two_heights_the_run_is_taken_on_the_straight_line() -> None:
    site = between([{"value": "48 in", "at_height": "0 in"}, {"value": "44 in", "at_height": "72 in"}])
    low, high = 48 * INCH - off(48 * INCH), 44 * INCH - off(44 * INCH)
    half_way = (low + high) / 2 - 44 * INCH
    assert clearance(fitted(site), "along").clearance_nm == pytest.approx(half_way, abs=1000)


def test_a_corner_closing_in_takes_depth_times_its_tangent() -> None:
    square = {"at": "right", "angle": 90.0}
    found = fitted(between("48 in", corners=[{"at": "left", "angle": 87.0}, square]))
    reach = 21 * INCH            # 1 in of air behind and 20 in of bench
    taken = reach * (math.tan(math.radians(3.25)) + math.tan(math.radians(0.25)))
    run = 48 * INCH - off(48 * INCH)
    assert clearance(found, "along").clearance_nm == pytest.approx(run - taken - 44 * INCH, abs=2000)
    start = INCH // 4 + reach * math.tan(math.radians(3.25))
    assert found.positions[0][0] == pytest.approx(start, abs=2000)


def test_a_door_open_in_front_meets_a_wall_that_closes_in() -> None:
    """A cupboard 36 x 18 in, 1 in off the wall, its doors 18 in out: 37 in out they must not touch."""
    corners = [{"at": "left", "angle": 84.0}, {"at": "right", "angle": 90.0}]
    slant = math.tan(math.radians(6.25)) + math.tan(math.radians(0.25))

    def niche(run: int) -> dict[str, Any]:
        return between({"mm": run}, depth="90 in", corners=corners, height_under="90 in")

    run = 1030
    open_free = run * MM - off(run * MM) - 37 * INCH * slant - 36 * INCH
    found = clearance(fitted(niche(run), "cupboard"), "along")
    assert found.needed_nm == 0 and found.clearance_nm == pytest.approx(open_free, abs=2000)
    assert "where it opens" in found.binding
    assert fitted(niche(run), "cupboard").fits and not fitted(niche(run - 12), "cupboard").fits
    shut_free = (run - 12) * MM - off((run - 12) * MM) - 19 * INCH * slant - 36 * INCH
    assert shut_free > INCH / 2                   # shut it would go in


def test_a_lid_opens_past_where_a_side_wall_leans_in() -> None:
    """A chest 500 mm high whose lid reaches up 548 mm more: 1048 mm up the wall leans in by 31.4 mm."""
    wall = {"side": "left", "readings": [], "out_of_plumb": "30 mm", "plumb_over": "1000 mm"}
    site = between({"mm": 1250}, depth="90 in")
    found = fitted({**site, "walls": [*site["walls"], wall]}, "chest", choices={"lid": "full"})
    up = 500 + 550 * math.sin(math.radians(95))
    tight = clearance(found, "along")
    assert tight.clearance_nm == pytest.approx((1250 - 1200 - 0.03 * up) * MM - off(1250 * MM), abs=2000)
    assert tight.needed_nm == 0


def test_a_corner_opening_out_takes_nothing_and_gives_nothing() -> None:
    wide = [{"at": side, "angle": 93.0} for side in ("left", "right")]
    assert clearance(fitted(between("48 in", corners=wide)), "along").clearance_nm == \
        48 * INCH - off(48 * INCH) - 44 * INCH


def test_a_width_read_further_out_between_opening_walls_is_brought_back_to_the_wall() -> None:
    wide = [{"at": side, "angle": 95.0} for side in ("left", "right")]
    site = between([{"value": "48 in", "at_depth": "20 in"}], corners=wide)
    run = 48 * INCH - off(48 * INCH) - 2 * 20 * INCH * math.tan(math.radians(5.25))
    assert clearance(fitted(site), "along").clearance_nm == pytest.approx(run - 44 * INCH, abs=2000)


def test_a_3_4_5_corner_is_square_within_what_the_tape_may_be_off() -> None:
    by_tape = {"at": "left", "diagonals": [{"along": "36 in", "out": "48 in", "across": "60 in"}]}
    found = fitted(between("48 in", corners=[by_tape, {"at": "right", "angle": 90.0}]))
    taken = 48 * INCH - off(48 * INCH) - 44 * INCH - clearance(found, "along").clearance_nm
    worst_mm = (1.1 * 2 + 1.5) / 600 * 21 * 25.4       # about the sum of errors over the least leg
    assert 0 < taken < (worst_mm + 21 * 25.4 * math.tan(math.radians(0.25))) * 2 * MM


def test_a_corner_with_a_short_diagonal_closes_in_by_the_law_of_cosines() -> None:
    by_tape = {"at": "left", "diagonals": [{"along": "36 in", "out": "48 in", "across": "58 in"}]}
    found = fitted(between("60 in", corners=[by_tape, {"at": "right", "angle": 90.0}]))
    angle = math.degrees(math.acos((36**2 + 48**2 - 58**2) / (2 * 36 * 48)))
    least = INCH / 4 + 21 * INCH * math.tan(math.radians(90 - angle))
    assert least < found.positions[0][0] < least + 0.2 * INCH


def test_a_side_wall_leaning_in_takes_its_lean_over_the_height_of_the_piece() -> None:
    site = between("48 in")
    site["walls"].append({"side": "left", "out_of_plumb": "1 in", "plumb_over": "48 in"})
    found = fitted(site)
    assert clearance(found, "along").clearance_nm == 48 * INCH - off(48 * INCH) - 44 * INCH - 36 * INCH // 48
    assert found.positions[0][0] == INCH // 4 + 36 * INCH // 48


def test_a_back_wall_leaning_in_keeps_the_piece_further_out() -> None:
    site = between("48 in")
    site["walls"][0] |= {"out_of_plumb": "1 in", "plumb_over": "36 in"}
    found = fitted(site)
    assert clearance(found, "front").clearance_nm == 30 * INCH - off(30 * INCH) - 2 * INCH - 20 * INCH
    assert clearance(found, "behind") == Clearance("behind", INCH, INCH, "back wall, which leans in 1 in")


def test_an_open_end_needs_no_allowance() -> None:
    site = along("44 1/16 in")
    assert clearance(fitted(site), "along").needed_nm == 0
    corner = {**along("44 3/8 in"), "kind": "corner", "corners": [{"at": "right", "angle": 90.25}]}
    assert clearance(fitted(corner), "along").needed_nm == INCH // 4
    assert fitted(corner).positions[0][0] == 0, "the left end is open"


def test_a_wall_named_at_an_end_holds_it_whatever_the_site_is_called() -> None:
    site = along("44 3/8 in")
    site["walls"].append({"side": "left", "readings": [{"value": "30 in"}]})
    assert clearance(fitted(site), "along").needed_nm == INCH // 4


def test_the_walkway_is_wanted_in_front_and_says_caution_not_stop() -> None:
    found = fitted({**along("90 in"), "depths": [{"value": "56 in"}]})
    assert not found.fits
    assert titles(found, Level.CAUTION) == ["Little room to walk or sit in front"]
    assert clearance(found, "front").needed_nm == 36 * INCH
    assert found.largest_nm["depth"] == int(18.5 * INCH)


def test_between_walls_the_depth_is_the_nooks_own_and_a_walkway_only_where_asked() -> None:
    assert fitted(between("48 in", "22 in")).fits
    assert not fitted(between("48 in", "22 in", walkway="36 in")).fits


def test_doors_that_cannot_open_stop_the_piece() -> None:
    found = fitted(between("40 in"), "cupboard")
    assert "Its lid or doors cannot open to the front" in titles(found, Level.STOP)
    assert found.largest_nm["length"] == 21 * INCH, "a door half as wide as the piece needs 10 1/2 in"


def test_a_lid_is_measured_open_under_what_is_above_and_behind() -> None:
    shut = fitted({**along("120 in"), "height_under": "560 mm"}, "chest", units="mm", choices={"lid": "full"})
    reach = 550 * MM
    top = 500 * MM + round(reach * math.sin(math.radians(95)))
    above = clearance(shut, "above")
    assert above.clearance_nm == pytest.approx(560 * MM - off(560 * MM) - top, abs=2) and not shut.fits
    behind = clearance(shut, "behind").needed_nm
    assert behind == pytest.approx(-reach * math.cos(math.radians(95)), abs=2) and behind > INCH


def test_a_pipe_in_the_middle_leaves_a_place_on_each_side() -> None:
    found = fitted(along("120 in", thing("downpipe", "58 in", "61 in", "3 in")))
    u = off(61 * INCH)
    assert found.positions == (
        (0, 58 * INCH - u - 2 * INCH - 44 * INCH),
        (61 * INCH + u + 2 * INCH, 120 * INCH - off(120 * INCH) - 44 * INCH))
    assert found.fits and not titles(found, Level.CAUTION)


def test_where_only_a_cautions_room_is_left_the_piece_fits_with_a_caution() -> None:
    found = fitted(along("60 in", thing("tap", "29 in", "31 in", "4 in", "30 in", "34 in")),
                   dimensions={"height": "18 in"})
    assert found.fits and found.positions and titles(found, Level.CAUTION) == ["Tap: too near"]


def test_where_only_a_stops_room_is_left_the_piece_does_not_fit() -> None:
    found = fitted(along("70 in", thing("gas meter", "30 in", "45 in", "10 in", "40 in", "60 in")))
    assert not found.fits and not found.positions
    (stop,) = [f for f in found.findings if f.level is Level.STOP]
    assert stop.rule == "keep clear"
    assert stop.limit == "6 in each side, 36 in in front, 6 in above, 36 in below"


def test_a_thing_without_a_bottom_is_taken_as_standing_on_the_ground() -> None:
    assert not fitted(along("60 in", thing("other", "20 in", "40 in", "12 in"))).fits
    assert fitted(along("60 in", thing("other", "20 in", "40 in", "12 in", "42 in"))).fits


def test_a_piece_stands_off_a_ledge_but_not_off_a_deep_box() -> None:
    ledge = fitted(along("60 in", thing("sill", "0 in", "60 in", "2 in", None, "6 in")))
    assert ledge.fits and "It stands off the wall" in titles(ledge, Level.NOTE)
    assert clearance(ledge, "behind").clearance_nm == 2 * INCH + off(2 * INCH)
    assert not fitted(along("60 in", thing("other", "20 in", "40 in", "12 in"))).fits


def test_a_lid_that_opens_behind_is_kept_off_what_sticks_out_of_the_wall() -> None:
    pipe = thing("sill", "0 mm", "3000 mm", "30 mm")
    found = fitted(along("3000 mm", pipe), "chest", units="mm", choices={"lid": "full"})
    swing = -round(550 * MM * math.cos(math.radians(95)))
    behind = clearance(found, "behind")
    assert behind.clearance_nm == pytest.approx(30 * MM + off(30 * MM) + swing, abs=2)
    assert behind.needed_nm == pytest.approx(swing, abs=2)


def test_an_open_lid_meets_what_the_shut_chest_passes_under() -> None:
    lamp = thing("other", "1200 mm", "1400 mm", "150 mm", "800 mm", "1000 mm")
    found = fitted(along("3000 mm", lamp), "chest", units="mm", choices={"lid": "full"})
    assert found.positions[0][0] == 1400 * MM + off(1400 * MM)


def test_a_thing_on_a_side_wall_takes_from_that_end_only_where_the_piece_reaches() -> None:
    site = between("52 in")
    pipe = {"kind": "downpipe", "from": "4 in", "to": "7 in", "projection": "3 in"}
    site["walls"].append({"side": "left", "readings": [], "obstructions": [pipe]})
    assert fitted(site).positions[0][0] == 3 * INCH + off(3 * INCH) + 2 * INCH
    pipe |= {"from": "40 in", "to": "43 in"}
    assert fitted(site).positions[0][0] == INCH // 4


def test_what_was_not_measured_is_not_called_fitting() -> None:
    found = fitted({"kind": "between walls", "depths": [{"value": "30 in"}]})
    assert not found.fits and not titles(found, Level.OK)
    assert "Length of the wall: not checked" in titles(found, Level.NOT_CHECKED)
    low = fitted(between([{"value": "60 in", "at_height": "2 in"}]))
    assert "Width at the top: not checked" in titles(low, Level.NOT_CHECKED)
    assert "The left corner: not checked" in titles(fitted(between("60 in")), Level.NOT_CHECKED)
    assert "Room in front: not checked" in titles(fitted(along("60 in", depths=())), Level.NOT_CHECKED)


def test_the_best_set_gives_up_dimensions_in_the_templates_order() -> None:
    found = fitted(between("40 in", "18 in"))
    assert found.best_nm == {"length": 39 * INCH, "depth": int(16.5 * INCH), "height": 36 * INCH}
    assert found.largest_nm == {"length": 0, "depth": 0, "height": 0}, "with the others held nothing helps"
    assert fitted(between("20 in", "18 in")).best_nm is None
    asked = fitted(between("60 in"), dimensions={"length": "44 1/4 in"})
    assert asked.best_nm is not None and asked.best_nm["length"] == 44 * INCH + INCH // 4


def test_sizes_found_by_halving_are_the_largest_that_fit() -> None:
    found = fitted(between("1234 mm", "500 mm"), "fine", units="mm", dimensions={"length": "1300 mm"})
    room = 1234 * MM - off(1234 * MM) - INCH // 2
    assert found.largest_nm["length"] == room // (MM // 2) * (MM // 2)


def test_an_envelope_that_says_nothing_of_opening_does_not_open() -> None:
    made = fit_cases.template(VECTORS["templates"]["bench"])
    piece = envelope(made, {"length": 44 * INCH, "depth": 20 * INCH, "height": 18 * INCH}, {})
    assert (piece.open_height_nm, piece.open_front_nm, piece.open_behind_nm, piece.use_front_nm) == (
        18 * INCH, 0, 0, 0)


@pytest.mark.parametrize(("tape_class", "metres", "error_mm"), [
    ("I", 3, 0.4), ("II", 3, 0.9), ("III", 3, 1.8), ("II", 5, 1.3), ("II", 8, 1.9), ("II", 10, 2.3),
    ("?", 5, 2.6),
])
def test_a_reading_is_worth_its_tapes_class_and_half_a_mark(
        tape_class: str, metres: int, error_mm: float) -> None:
    assert uncertainty_nm(metres * 1000 * MM, tape_class, MM) == pytest.approx((error_mm + 0.5) * MM)


def test_formulas_without_an_answer_at_some_size_are_sizes_that_do_not_fit() -> None:
    found = fitted(between("30 1/2 in"), "fixed")
    assert found.largest_nm["length"] == int(29.5 * INCH), "30 in divides by nothing and is passed over"


def test_what_stops_or_warns_of_a_thing_on_a_wall_says_measured_and_limit() -> None:
    deep = fitted(along("60 in", thing("other", "20 in", "40 in", "12 in")))
    window = fitted(along("60 in", thing("window", "10 in", "50 in", "2 in", "34 in", "70 in")))
    (stop,) = [f for f in deep.findings if f.level is Level.STOP]
    assert stop.limit == "44 in free in one stretch" and stop.measured.endswith("out")
    (near,) = [f for f in window.findings if f.level is Level.CAUTION]
    assert near.measured and near.limit == "nothing before it"
    assert stop.source and near.source and stop.mend and near.mend


def test_what_is_lost_upwards_and_outwards_adds_up_where_nothing_was_read() -> None:
    """A nook of plane walls, 15 mm less at the top, 20 mm less at the front: 35 mm less at both."""
    def read(value: int, high: int, out: int) -> dict[str, Any]:
        return {"value": {"mm": value}, "at_height": {"mm": high}, "at_depth": {"mm": out}}

    three = [read(1220, 0, 0), read(1205, 900, 0), read(1200, 0, 500)]
    length = 44 * INCH
    least = clearance(fitted(between(three)), "along")
    assert least.clearance_nm == 1185 * MM - off(1220 * MM) - length
    assert "900 mm" in clearance(fitted(between(three), units="mm"), "along").binding
    read_there = clearance(fitted(between([*three, read(1198, 900, 500)])), "along")
    assert read_there.clearance_nm == 1198 * MM - off(1198 * MM) - length
