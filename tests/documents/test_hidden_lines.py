"""Hidden lines: truths of solid geometry that anyone can draw on paper, and a blind check by rays."""

from __future__ import annotations

from math import cos, hypot, radians, sin, sqrt
from random import Random

import pytest

from documents.sample import Ring, bench, box, raked
from yardwright.documents.drawing.projection import VIEWS, Edge, View, project
from yardwright.documents.drawing.visible import visible_lines

CUBE = box(0, 0, 0, 100, 100, 100)


def drawn(members: list[list[Ring]], view: str) -> set[tuple[tuple[int, int], tuple[int, int]]]:
    outline, inner = visible_lines(members, VIEWS[view])
    return {tuple(sorted(((round(a[0]), round(a[1])), (round(b[0]), round(b[1])))))  # type: ignore[misc]
            for a, b in (*outline, *inner)}


def total_length(segments: tuple[tuple[tuple[float, float], tuple[float, float]], ...]) -> float:
    return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in segments)


def test_a_cube_shows_nine_edges_in_a_three_quarter_view() -> None:
    outline, inner = visible_lines([CUBE], VIEWS["isometric"])
    assert (len(outline), len(inner)) == (6, 3)


def test_every_isometric_edge_of_a_cube_is_drawn_equally_long() -> None:
    # An isometric view shortens all three axes by sqrt(2/3) (elementary geometry, recomputed).
    outline, inner = visible_lines([CUBE], VIEWS["isometric"])
    for a, b in (*outline, *inner):
        assert hypot(b[0] - a[0], b[1] - a[1]) == pytest.approx(100 * sqrt(2 / 3))


@pytest.mark.parametrize("view", ["front", "side", "plan"])
def test_a_cube_shows_four_edges_seen_square_on(view: str) -> None:
    outline, inner = visible_lines([CUBE], VIEWS[view])
    assert (len(outline), len(inner)) == (4, 0)


def test_the_front_view_has_length_to_the_right_and_height_up() -> None:
    assert drawn([box(0, 0, 0, 30, 20, 10)], "front") == {
        ((0, 0), (30, 0)), ((0, 0), (0, 10)), ((30, 0), (30, 10)), ((0, 10), (30, 10))}


def test_the_right_side_view_has_the_front_to_its_left() -> None:
    step = [box(0, 0, 0, 30, 5, 4), box(0, 5, 0, 30, 20, 10)]
    assert ((0, 4), (5, 4)) in drawn(step, "side")


def test_a_box_behind_a_box_ends_exactly_where_the_front_one_begins() -> None:
    front, behind = box(0, 0, 0, 100, 50, 100), box(40, 200, 10, 180, 250, 160)
    lines = drawn([front, behind], "front")
    assert ((100, 10), (180, 10)) in lines             # its foot shows only beyond the front box
    assert ((40, 100), (40, 160)) in lines            # its left edge only above it
    assert ((40, 10), (40, 100)) not in lines
    assert ((40, 10), (180, 10)) not in lines


def test_a_box_wholly_behind_another_leaves_no_line() -> None:
    alone = visible_lines([box(0, 0, 0, 100, 50, 100)], VIEWS["front"])
    both = visible_lines([box(0, 0, 0, 100, 50, 100), box(10, 60, 10, 90, 80, 90)], VIEWS["front"])
    assert both == alone


def test_a_raked_board_comes_out_as_high_as_its_rake_makes_it() -> None:
    board = raked(box(0, 0, 0, 100, 10, 400), -30, 0, 0)
    outline, inner = visible_lines([board], VIEWS["front"])
    heights = [p[1] for s in (*outline, *inner) for p in s]
    assert max(heights) == pytest.approx(400 * cos(radians(30)))
    assert min(heights) == pytest.approx(-10 * sin(radians(30)))


def test_a_face_that_passes_through_a_line_hides_it_from_there_on() -> None:
    # A post upright at y 100 behind a plane leaning back from y 0: they meet at z = 100 / tan 45° = 100.
    lean = raked(box(0, 0, 0, 400, 1, 400), -45, 0, 0)
    post = box(200, 100, -50, 220, 300, 400)
    outline, inner = visible_lines([lean, post], VIEWS["front"])
    uprights = [s for s in (*outline, *inner)
                if abs(s[0][0] - 200) < 0.01 and abs(s[1][0] - 200) < 0.01]
    spans = sorted(sorted((a[1], b[1])) for a, b in uprights)
    assert spans[0] == pytest.approx([-50, -sin(radians(45))], abs=0.1)   # under its foot
    assert [spans[1][0], spans[-1][1]] == pytest.approx([100, 400], abs=0.1)     # before it higher up
    assert spans[1][1] == pytest.approx(spans[2][0])


def test_flush_faces_hide_nothing_of_each_other() -> None:
    pair = [box(0, 0, 0, 100, 20, 50), box(100, 0, 0, 200, 20, 50)]
    assert ((100, 0), (100, 50)) in drawn(pair, "front")


def test_edges_on_one_line_are_drawn_once() -> None:
    stack = [box(0, 0, 10 * i, 100, 20, 10 * i + 10) for i in range(5)]
    outline, inner = visible_lines(stack, VIEWS["front"])
    assert total_length((*outline, *inner)) == pytest.approx(2 * 50 + 6 * 100, abs=0.5)


def test_the_flats_of_a_round_post_leave_no_lines_between_them() -> None:
    corners = [(50 * cos(radians(a)), 50 * sin(radians(a))) for a in range(0, 360, 10)]
    rings = [[(x, y, 0.0) for x, y in reversed(corners)], [(x, y, 200.0) for x, y in corners]]
    for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True):
        rings.append([(ax, ay, 0.0), (bx, by, 0.0), (bx, by, 200.0), (ax, ay, 200.0)])
    outline, inner = visible_lines([rings], VIEWS["front"])
    upright = [s for s in (*outline, *inner) if abs(s[0][0] - s[1][0]) < 0.01]
    assert sorted(round(s[0][0]) for s in upright) == [-50, 50]


def test_a_bridge_to_a_hole_is_no_line() -> None:
    ring = [(0.0, 0.0, 0.0), (100.0, 0.0, 0.0), (100.0, 0.0, 100.0), (0.0, 0.0, 100.0), (0.0, 0.0, 0.0),
            (40.0, 0.0, 40.0), (40.0, 0.0, 60.0), (60.0, 0.0, 60.0), (60.0, 0.0, 40.0), (40.0, 0.0, 40.0)]
    _, edges = project([[ring]], VIEWS["front"])
    assert len(edges) == 8
    behind = box(45, 100, 45, 55, 120, 55)
    assert ((45, 45), (45, 55)) in drawn([[ring], behind], "front")     # seen through the hole
    assert ((10, 10), (10, 20)) not in drawn([[ring], box(10, 100, 10, 20, 120, 20)], "front")


def planes_of(rings: list[Ring]) -> list[tuple[tuple[float, float, float], float]]:
    """Outward normal and offset of every face of a convex solid, from three of its corners."""
    found = []
    for (ax, ay, az), (bx, by, bz), (cx, cy, cz), *_ in rings:
        ux, uy, uz, vx, vy, vz = bx - ax, by - ay, bz - az, cx - bx, cy - by, cz - bz
        n = (uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx)
        size = hypot(*n)
        n = (n[0] / size, n[1] / size, n[2] / size)
        found.append((n, n[0] * ax + n[1] * ay + n[2] * az))
    return found


def hidden_by_rays(point: tuple[float, float, float], towards: tuple[float, float, float],
                   solids: list[list[tuple[tuple[float, float, float], float]]]) -> bool:
    """Whether a ray from the point to the viewer runs inside a convex solid (clipped by its half-spaces)."""
    for planes in solids:
        enter, leave = 0.0, 1e9
        for n, offset in planes:
            over = sum(n[i] * point[i] for i in range(3)) - offset
            slope = sum(n[i] * towards[i] for i in range(3))
            if abs(slope) < 1e-12:
                leave = -1.0 if over > -0.03 else leave
            elif slope < 0:
                enter = max(enter, -over / slope)
            else:
                leave = min(leave, -over / slope)
        if leave - enter > 0.2:
            return True
    return False


def compare_with_rays(members: list[list[Ring]], view: View, chance: Random) -> int:
    """Every edge at a chance place: drawn there if and only if no solid stands before it."""
    solids = [planes_of(rings) for rings in members]
    outline, inner = visible_lines(members, view)
    _, edges = project(members, view)
    compared = 0
    for edge in edges:
        share = chance.uniform(0.05, 0.95)
        ends = [_world(view, edge, share + off) for off in (-0.03, 0.0, 0.03)]
        hidden = {hidden_by_rays(p, view.towards, solids) for p in ends}
        if len(hidden) == 1:                           # not where a line is just about to go
            compared += 1
            here = view.flat(ends[1])
            drawn_here = any(near(s, here, edge) for s in (*outline, *inner))
            assert drawn_here == (not hidden.pop() or shown_for_another(edge, here, edges, view, solids))
    return compared


def shown_for_another(edge: Edge, here: tuple[float, float], edges: list[Edge], view: View,
                      solids: list[list[tuple[tuple[float, float, float], float]]]) -> bool:
    """Whether a different edge that nothing hides lies on the same line of the picture here."""
    for other in edges:
        if other is not edge and near((other.start, other.end), here, edge):
            dx, dy = other.end[0] - other.start[0], other.end[1] - other.start[1]
            share = ((here[0] - other.start[0]) * dx + (here[1] - other.start[1]) * dy) / (dx * dx + dy * dy)
            if not hidden_by_rays(_world(view, other, share), view.towards, solids):
                return True
    return False


@pytest.mark.parametrize("view", list(VIEWS))
def test_random_boxes_show_exactly_what_rays_say(view: str) -> None:
    chance = Random(f"boxes {view}")
    for _ in range(6):
        members = []
        for _ in range(9):
            x, y, z = (chance.uniform(0, 300) for _ in range(3))
            members.append(box(x, y, z, x + chance.uniform(10, 200), y + chance.uniform(10, 200),
                               z + chance.uniform(10, 200)))
        assert compare_with_rays(members, VIEWS[view], chance) > 25


@pytest.mark.parametrize("view", list(VIEWS))
def test_raked_boards_and_an_open_lid_show_exactly_what_rays_say(view: str) -> None:
    chance = Random(f"raked {view}")

    members = [box(0, 0, 0, 900, 20, 380), box(0, 430, 0, 900, 450, 380), box(0, 20, 0, 20, 430, 380),
               box(880, 20, 0, 900, 430, 380), box(20, 20, 30, 880, 430, 50)]
    for degrees in (0, 25, 70, 94):
        lid = [raked(box(0, 95.0 * i, 380, 900, 95.0 * i + 90, 400), -degrees, 470, 380) for i in range(5)]
        cleats = [raked(box(x, 20, 360, x + 60, 450, 380), -degrees, 470, 380) for x in (150, 420, 690)]
        back = [raked(box(30 + 100.0 * i, 480, 300, 110 + 100.0 * i, 500, 800), -8, 480, 300)
                for i in range(8)]
        assert compare_with_rays([*members, *lid, *cleats, *back], VIEWS[view], chance) > 40


def _world(view: View, edge: Edge, share: float) -> tuple[float, float, float]:
    x, y = (a + (b - a) * share for a, b in zip(edge.start, edge.end, strict=True))
    deep = edge.start_depth + (edge.end_depth - edge.start_depth) * share
    p = [view.right[i] * x + view.up[i] * y - view.towards[i] * deep for i in range(3)]
    return p[0], p[1], p[2]


def near(segment: tuple[tuple[float, float], tuple[float, float]], point: tuple[float, float],
         edge: Edge) -> bool:
    """Whether a drawn line runs along the edge through the point (one that only crosses it does not)."""
    (ax, ay), (bx, by) = segment
    dx, dy, size = bx - ax, by - ay, hypot(bx - ax, by - ay)
    ex, ey = edge.end[0] - edge.start[0], edge.end[1] - edge.start[1]
    along = ((point[0] - ax) * dx + (point[1] - ay) * dy) / size
    off = abs(dx * (point[1] - ay) - dy * (point[0] - ax)) / size
    turned = abs(dx * ey - dy * ex) / size / hypot(ex, ey)
    return off < 0.05 and turned < 1e-3 and -0.05 <= along <= size + 0.05


def test_a_bench_shows_the_same_lines_whatever_the_order_of_its_members() -> None:
    members = bench()
    one = drawn(members, "isometric")
    assert drawn(list(reversed(members)), "isometric") == one
