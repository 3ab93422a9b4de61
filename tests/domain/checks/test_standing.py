"""Racking, climbing children, wind, and panels glued wide."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import CEDAR, PINE, asked, box, case, piece
from yardwright.domain.checks import attached_seats, climbing, panels, racking, run, wind
from yardwright.domain.finding import Finding, Level
from yardwright.domain.measure import Writer
from yardwright.domain.piece.model import FittedHardware, Frame, Member, Piece
from yardwright.domain.site import Site
from yardwright.domain.template.model import GlueUp

BRACKETS = [FittedHardware("Brackets", "anchor", 2, {}, {}, "fit-bracket")]


def stand(aprons: bool, brace: bool = False) -> Piece:
    """A seat on four legs with or without aprons outside the legs, each crossing by six screws."""
    legs = [box(f"Leg {i}", (x, y, 0), (70, 70, 400), along="z", thick="y")
            for i, (x, y) in enumerate(((0, 0), (930, 0), (0, 330), (930, 330)))]
    seat = box("Seat", (0, 0, 400), (1000, 400, 38))
    members: list[Member] = [*legs, seat]
    screwed = [("Seat", "Leg")]
    if aprons:
        members += [box(f"Apron {i}", (0, y, 260), (1000, 30, 140), thick="y")
                    for i, y in enumerate((-30, 400))]
        members += [box(f"Side {i}", (x, 0, 260), (30, 400, 140), along="y", thick="x")
                    for i, x in enumerate((-30, 1000))]
        screwed += [("Apron", "Leg"), ("Side", "Leg")]
    made = piece(members, [asked("seat load", ["Seat"])], screwed=screwed)
    return replace(made, joints=tuple(replace(j, fasteners=6 * len(j.contacts)) for j in made.joints))


def racked(made: Piece) -> Finding:
    return racking.check(asked("racking"), case(made))[0]


def test_open_legs_sway_and_aprons_hold_them() -> None:
    assert racked(stand(False)).level is Level.STOP      # nothing at all keeps its legs upright
    assert racked(stand(True)).level is Level.OK


def test_the_sway_of_a_seat_is_24_lb_a_foot_along_and_10_across() -> None:
    """1000 mm = 3.28 ft: 79 lbf along, 33 across (IBC 1607, ASCE 7; seen)."""
    limit = racked(stand(False)).limit
    assert limit in ("79 lbf of sway", "33 lbf of sway")


def test_a_box_on_the_ground_has_no_legs_to_rack() -> None:
    assert racking.check(asked("racking"), case(piece([box("Plank", (0, 0, 0), (900, 140, 30))]))) == ()


def test_a_sloping_member_fixed_at_both_ends_braces() -> None:
    made = stand(False)
    slope = Frame((70, 0, 0), (0.7071, 0.0, 0.7071), (0.0, 1.0, 0.0), (-0.7071, 0.0, 0.7071))
    brace = replace(box("Brace", (70, 0, 0), (560, 70, 30)), frame=slope)
    legged = case(made)
    touch = legged.touches["Leg 0"][0]
    side = replace(touch, normal=(0.0, 1.0, 0.0), fasteners=3, kind="screws")
    held = {"Brace": (replace(side, other="Leg 0", centre=(70.0, 35.0, 20.0)),
                      replace(side, other="Seat", centre=(450.0, 35.0, 400.0)))}
    braced = replace(legged, piece=replace(made, members=(*made.members, brace)),
                     members={**legged.members, "Brace": brace}, touches={**legged.touches, **held})
    before, after = racking.check(asked("racking"), legged)[0], racking.check(asked("racking"), braced)[0]
    assert "0 braces" in before.detail and before.title.startswith("Sways along")
    assert after.title.startswith("Sways across")        # along, the brace holds more now


def cupboard(kg: float, depth: float = 300.0, overhang: float = 0.0) -> Piece:
    """A tall block of a weight, its top reaching out over the front."""
    body = box("Body", (0, 0, 0), (800, depth, 1100), along="z", thick="y")
    heavy = replace(body, density_kg_m3=kg / (body.volume_mm3 * 1e-9))
    top = replace(box("Top", (0, -overhang, 1100), (800, depth + overhang, 20)), density_kg_m3=0.0)
    return piece([heavy, top])


@pytest.mark.parametrize(("kg", "over", "level"), [
    (40, 0, Level.OK), (16, 0, Level.STOP), (40, 200, Level.STOP), (60, 200, Level.OK)])
def test_a_child_of_25_kg_hangs_at_the_front(kg: float, over: float, level: Level) -> None:
    """W·150 mm against 25·(o + 101.6): 16.9 kg at o = 0, 50.3 kg at 200 mm (recomputed)."""
    assert climbing.check(asked("climbing"), case(cupboard(kg, 300.0, over)))[0].level is level


def test_low_pieces_are_not_climbed_and_fixed_ones_hang_on_their_anchors() -> None:
    low = piece([box("Block", (0, 0, 0), (800, 300, 500))])
    assert climbing.check(asked("climbing"), case(low)) == ()
    fixed = replace(cupboard(10), hardware=tuple(BRACKETS),
                    checks=(asked("tip over", push_height=1100.0, anchored=True),))
    found = climbing.check(asked("climbing"), case(fixed))[0]
    assert found.level is Level.NOTE and "no load is given" in found.detail      # tip over warns of it
    empty = replace(cupboard(10), checks=(asked("tip over", {"kind": "planter"}, push_height=1.0),))
    assert empty.checks


@pytest.mark.parametrize(("exposure", "level"), [
    ("", Level.NOT_CHECKED), ("windy", Level.NOT_CHECKED), ("Open", Level.STOP), ("sheltered", Level.STOP)])
def test_a_slim_tall_piece_needs_its_exposure(exposure: str, level: Level) -> None:
    tall = piece([box("Screen", (0, 0, 0), (1500, 60, 1800), along="z", thick="y")])
    found = run(tall, None, Site(exposure=exposure), case(tall).shop, Writer("mm"), "wind")
    assert [f.level for f in found] == [level]


def test_a_low_broad_piece_is_not_asked_about_wind() -> None:
    low = piece([box("Chest", (0, 0, 0), (1200, 600, 1000))])
    assert wind.check(asked("wind"), case(low)) == ()


def test_wind_on_an_anchored_screen_is_a_stop_with_the_pull_where_no_load_is_given() -> None:
    board = box("Screen", (0, 0, 0), (1500, 60, 1800), along="z", thick="y")
    made = piece([board], [asked("tip over", push_height=1800.0, anchored=True)], hardware=BRACKETS)
    found = wind.check(asked("wind"), case(made, Site(exposure="suburban")))[0]
    assert found.level is Level.STOP and "Anchor it to hold" in found.mend
    assert found.title == "Wind blows it over"


@pytest.mark.parametrize(("size", "exposure", "level", "title"), [
    ((1500, 300, 700), "roof", Level.CAUTION, "Wind can blow it over"),
    ((1500, 300, 700), "coast", Level.CAUTION, "Wind can blow it over"),
    ((1500, 300, 700), "open", Level.CAUTION, "Wind can blow it over"),
    ((1500, 1500, 400), "roof", Level.CAUTION, "Wind can push it along"),
    ((1500, 1500, 400), "open", Level.OK, "Stands in the wind")])
def test_low_pieces_are_judged_where_the_wind_is_strong(size: tuple[float, float, float], exposure: str,
                                                        level: Level, title: str) -> None:
    """By hand, cedar of 358 kg/m3: 0.613·42²·1.5·1.5·0.7 = 1703 N over 350 mm against 0.6·1106 N over 150 mm;
    0.613·42²·1.5·1.5·0.4 = 973 N against 0.4·0.6·3160 = 758 N of rubbing, at 34 m/s 638 N."""
    made = piece([box("Block", (0, 0, 0), size)])
    (found,) = wind.check(asked("wind"), case(made, Site(exposure=exposure)))
    assert (found.level, found.title) == (level, title)


@pytest.mark.parametrize(("exposure", "level"), [("open", Level.NOTE), ("roof", Level.CAUTION)])
def test_open_work_in_the_open_is_a_note_and_on_a_roof_a_caution(exposure: str, level: Level) -> None:
    """A top 40 mm thick on two ends 100 mm wide covers a quarter of its side: 1.5·0.04 + 2·0.1·0.7 m2."""
    ends = [box(f"End {x}", (x, 0, 0), (100, 300, 700), along="z", thick="x") for x in (0, 1400)]
    made = piece([*ends, box("Top", (0, 0, 700), (1500, 300, 40))])
    (found,) = wind.check(asked("wind"), case(made, Site(exposure=exposure)))
    assert (found.level, found.title) == (level, "Wind can blow it over")


@pytest.mark.parametrize(("high", "exposure"), [
    (700, "sheltered"), (700, "suburban"), (700, ""), (700, "windy"), (390, "roof")])
def test_low_pieces_are_not_judged_elsewhere_nor_lower_than_a_bench(high: float, exposure: str) -> None:
    made = piece([box("Block", (0, 0, 0), (1500, 300, high))])
    assert wind.check(asked("wind"), case(made, Site(exposure=exposure))) == ()


def test_a_low_planter_is_told_to_be_filled_and_a_fixed_piece_judged_by_its_anchors() -> None:
    block = box("Block", (0, 0, 0), (1500, 300, 700))
    full = piece([block], [asked("soil weight", soil_volume=3e9)])
    (found,) = wind.check(asked("wind"), case(full, Site(exposure="roof")))
    assert found.level is Level.CAUTION and found.mend.startswith("Fill it as soon as it stands")
    assert wind.check(asked("wind"), case(full, Site(exposure="open")))[0].level is Level.NOTE
    fixed = piece([block], [asked("tip over", anchored=True, push_height=700.0)], hardware=BRACKETS)
    (found,) = wind.check(asked("wind"), case(fixed, Site(exposure="roof")))
    assert found.level is Level.CAUTION and "anchors" in found.detail
    broad = piece([box("Block", (0, 0, 0), (1500, 1500, 400))], fixed.checks, hardware=BRACKETS)
    (found,) = wind.check(asked("wind"), case(broad, Site(exposure="roof")))
    assert (found.level, found.title) == (Level.NOTE, "Wind: only its fixing holds it")


def test_a_heavy_squat_tower_stands_in_the_wind() -> None:
    tower = replace(box("Tower", (0, 0, 0), (1250, 1250, 1300)), density_kg_m3=400.0)
    assert wind.check(asked("wind"), case(piece([tower]), Site(exposure="coast")))[0].level is Level.OK


def panel(width: float, kind: str = "edge", battens: bool = True) -> Piece:
    """A panel glued from two boards with two battens screwed across under it."""
    half = width / 2
    strips = [box(f"Strip {n}", (0, n * half, 30), (1000, half, 25), glue_up="Top") for n in range(2)]
    strips = [replace(s, glue_up_no=1) for s in strips]
    across = [box(f"Batten {n}", (x, 0, 0), (40, width, 30), along="y") for n, x in enumerate((50, 900))]
    made = piece([*strips, *(across if battens else ())], screwed=[("Batten", "Strip")] if battens else [])
    return replace(made, glue_ups=(GlueUp("Top", kind, ("Strip",)),))


def test_a_wide_glued_panel_held_across_is_noticed() -> None:
    """600 mm cedar from 15 to 8 %: 600·7/(30·100/5 - 30 + 15) = 7.2 mm, over 1/8 in (Wood Handbook 13-3)."""
    found = panels.check(asked("glued panels"), case(panel(600)))
    assert [f.level for f in found] == [Level.CAUTION]
    assert found[0].measured == "0.28 in"


@pytest.mark.parametrize("made", [panel(600, battens=False), panel(600, "L"), panel(150)])
def test_narrow_or_free_panels_and_legs_are_fine(made: Piece) -> None:
    assert {f.level for f in panels.check(asked("glued panels"), case(made))} <= {Level.OK}


def test_a_damp_place_moves_a_panel_less() -> None:
    made = panel(350)
    levels = {place: panels.check(asked("glued panels"), case(made, Site(region=place)))[0].level
              for place in ("Phoenix", "Boston")}
    assert levels == {"Phoenix": Level.CAUTION, "Boston": Level.OK}


def test_a_table_end_far_past_its_feet_tips_under_a_person() -> None:
    feet = [box(f"Foot {n}", (x, 0, 0), (70, 1500, 70), along="y", kind=PINE)
            for n, x in enumerate((800, 1030))]
    seats = [box(f"Seat {n}", (0, y, 420), (1900, 240, 38), kind=PINE) for n, y in enumerate((200, 1060))]
    top = box("Top", (0, 500, 700), (1900, 500, 38), kind=CEDAR)
    made = case(piece([*feet, *seats, top]))
    found = attached_seats.check(asked("attached seats", ["Seat 0", "Seat 1"]), made)
    assert [f.level for f in found] == [Level.OK, Level.STOP]
    assert "Let it reach no more than" in found[1].mend
