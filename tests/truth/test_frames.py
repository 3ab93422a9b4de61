"""Frames pushed sideways against PyNiteFEA (general-purpose open-source frame analysis).

The engine has no frame solver: racking, posts of backs and posts of planters are closed forms. Here random
frames are solved by the frame program and each closed form must give its answer, or be on the safe side of it
where its file says so. Status: recomputed.
"""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import pairwise

import pytest
from Pynite import FEModel3D

from handmade import asked, box, case, piece
from yardwright.domain.checks import racking
from yardwright.domain.checks.fixings import Fixing
from yardwright.domain.checks.rule import Case
from yardwright.domain.checks.soil_posts import moment
from yardwright.domain.piece.model import Frame, Member

ALONG = (1.0, 0.0, 0.0)
FRAMES = 100


class Flat:
    """A frame in the x-z plane; members join stiffly unless they are pinned."""

    def __init__(self) -> None:
        self.model = FEModel3D()
        self.model.add_material("wood", 1e4, 1e4 / 16, 0.3, 1e-9)
        self.model.add_section("board", 5e3, 4e6, 4e6, 8e6)
        self.names: dict[tuple[float, float], str] = {}

    def node(self, x: float, z: float) -> str:
        at = (round(x, 3), round(z, 3))
        if at not in self.names:
            self.names[at] = f"N{len(self.names)}"
            self.model.add_node(self.names[at], x, 0, z)
            foot = z == 0
            self.model.def_support(self.names[at], foot, True, foot, True, False, True)
        return self.names[at]

    def bar(self, name: str, *places: tuple[float, float], pinned: bool = False) -> list[str]:
        """Members from place to place, one for each stretch."""
        made = []
        for n, (a, b) in enumerate(pairwise(places)):
            made.append(f"{name} {n}")
            self.model.add_member(made[-1], self.node(*a), self.node(*b), "wood", "board")
            if pinned:
                self.model.def_releases(made[-1], Ryi=True, Ryj=True)
        return made

    def solve(self) -> None:
        self.model.analyze_linear()

    def turning(self, name: str, end: bool) -> float:
        """The moment in a member's own plane at its start or its end."""
        member = self.model.members[name]
        at = member.L() if end else 0.0
        return max(abs(float(member.moment(way, at, "Combo 1"))) for way in ("My", "Mz"))


def trestle(seed: int) -> tuple[Case, list[float], list[float], float]:
    """2 to 4 legs, 1 or 2 rails crossing them, a seat on top: (case, legs' and rails' middles, height)."""
    pick = random.Random(seed)
    high, count = pick.uniform(350, 750), pick.randint(2, 4)
    gap = pick.uniform(300, 700)
    xs = [round(n * gap + pick.uniform(0, 80), 1) for n in range(count)]
    zs = [round(z, 1) for z in ([0.8 * high] if pick.random() < 0.5 else [0.3 * high, 0.85 * high])]
    legs = [box(f"Leg {n}", (x - 35, 0, 0), (70, 35, high), along="z", thick="y") for n, x in enumerate(xs)]
    rails = [box(f"Rail {n}", (xs[0] - 60, -30, z - 45), (xs[-1] - xs[0] + 120, 30, 90), thick="y")
             for n, z in enumerate(zs)]
    seat = box("Seat", (xs[0] - 60, -30, high), (xs[-1] - xs[0] + 120, 200, 38))
    made = piece([*legs, *rails, seat], [asked("seat load", ["Seat"])], screwed=[("Rail", "Leg")])
    return case(made), xs, zs, high + 38


@pytest.mark.parametrize("seed", range(FRAMES))
def test_legs_and_rails_hold_by_the_sum_of_their_turning_moments_over_the_height(seed: int) -> None:
    """Pushed by what racking says it holds, the rails of the frame turn as much as its screw groups may."""
    at, xs, zs, high = trestle(seed)
    legs = [m for m in at.piece.members if m.name == "Leg"]
    groups = [g for leg in legs for g in racking._groups(at, leg, ALONG)]
    assert len(groups) == len(xs) * len(zs)
    force = sum(groups) / high
    frame = Flat()
    for n, x in enumerate(xs):
        frame.bar(f"leg {n}", (x, 0), *((x, z) for z in zs), (x, high))
        frame.model.add_node_load(frame.node(x, high), "FX", force / len(xs))
    rails = [frame.bar(f"rail {n}", *((x, z) for x in xs)) for n, z in enumerate(zs)]
    frame.solve()
    turned = sum(frame.turning(name, end) for rail in rails for name in rail for end in (False, True))
    assert turned == pytest.approx(sum(groups), rel=1e-3)


def braced(seed: int) -> tuple[Case, Member, tuple[float, float], tuple[float, float], float, float]:
    """Two legs under a seat and a brace from one to the other or to the seat: its ends, the width, height."""
    pick = random.Random(1000 + seed)
    high, wide = pick.uniform(350, 750), pick.uniform(400, 900)
    low_z = pick.choice([0.0, pick.uniform(0.05, 0.4) * high])
    up_z = pick.choice([high, pick.uniform(0.6, 0.95) * high])
    up_x = wide if up_z < high else pick.uniform(0.5, 0.9) * wide
    run, rise = up_x, up_z - low_z
    long = (run**2 + rise**2) ** 0.5
    way = (run / long, 0.0, rise / long)
    frame = Frame((0.0, -30.0, low_z), way, (0.0, 1.0, 0.0), (-way[2], 0.0, way[0]))
    legs = [box(f"Leg {n}", (x - 35, 0, 0), (70, 35, high - 38), along="z", thick="y")
            for n, x in enumerate((0.0, wide))]
    seat = box("Seat", (-60, -30, high - 38), (wide + 120, 200, 38))
    made = piece([*legs, seat], [asked("seat load", ["Seat"])], screwed=[("Seat", "Leg")])
    brace = replace(legs[0], key="Brace", name="Brace", length_mm=long, frame=frame)
    return case(made), brace, (0.0, low_z), (up_x, up_z), wide, high


@pytest.mark.parametrize("seed", range(FRAMES))
def test_a_brace_holds_by_its_own_force_and_the_share_of_the_height_it_reaches_over(
        seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Legs pinned to ground and seat: pushed by what the brace is said to hold, it bears 1000 N."""
    at, brace, low, up, wide, high = braced(seed)
    touch = at.touches["Leg 0"][0]
    places = tuple(replace(touch, other=other, centre=(x, 0.0, z), fasteners=1.0, kind="screws")
                   for other, (x, z) in (("Leg 0", low), ("Seat", up)))
    monkeypatch.setattr(racking, "one_fastener", lambda *_: Fixing(1000.0, 1.0, ""))
    at = replace(at, touches={"Brace": places})
    held = racking._brace(at, brace, ALONG, high)
    frame = Flat()
    for n, (x, ends) in enumerate(((0.0, low), (wide, up))):
        middle = [ends] if 0 < ends[1] < high and abs(ends[0] - x) < 1 else []
        made = frame.bar(f"leg {n}", (x, 0), *middle, (x, high))
        frame.model.def_releases(made[-1], Ryj=True)
    frame.bar("seat", (0, high), *([up] if up[1] == high else []), (wide, high))
    frame.bar("brace", low, up, pinned=True)
    frame.model.add_node_load(frame.node(0, high), "FX", held)
    frame.solve()
    pulled = abs(float(frame.model.members["brace 0"].axial(1.0, "Combo 1")))
    assert pulled == pytest.approx(1000.0, rel=1e-3)


@pytest.mark.parametrize("seed", range(FRAMES))
def test_a_planters_post_is_judged_by_no_less_than_a_frame_program_finds(seed: int) -> None:
    """A post past its ties, soil pressing it more the deeper: simple spans are on the safe side of it."""
    pick = random.Random(2000 + seed)
    high, count = pick.uniform(250, 760), pick.randint(2, 4)
    ties = sorted(high * (n + pick.uniform(0.15, 0.85)) / count for n in range(count))
    fluid, span = 6.3e-6, pick.uniform(150, 600)
    frame = FEModel3D()
    frame.add_material("wood", 1e4, 1e4 / 16, 0.3, 1e-9)
    frame.add_section("post", 5e3, 4e6, 4e6, 8e6)
    marks = [0.0, *ties, high]
    for n, z in enumerate(marks):
        frame.add_node(f"N{n}", z, 0, 0)
        frame.def_support(f"N{n}", n == 0, z in ties, True, True, True, False)
    most = 0.0
    for n, (a, b) in enumerate(pairwise(marks)):
        frame.add_member(f"M{n}", f"N{n}", f"N{n + 1}", "wood", "post")
        frame.add_member_dist_load(f"M{n}", "Fy", -fluid * span * (high - a), -fluid * span * (high - b))
    frame.analyze_linear()
    for member in frame.members.values():
        most = max(most, abs(member.max_moment("Mz", "Combo 1")), abs(member.min_moment("Mz", "Combo 1")))
    assert moment([(t, t) for t in ties], 0.0, high, (0.0, high), fluid, span) >= most * (1 - 1e-6)


def test_two_splayed_legs_and_what_joins_them_still_fold() -> None:
    """Pinned at every corner a trapezium is a mechanism: the frame program finds it a thousand times as soft
    as the same with a brace, and racking takes no splayed leg for a brace."""
    sunk = []
    for brace in (False, True):
        frame = Flat()
        for n, (foot, head) in enumerate(((0.0, 250.0), (1200.0, 950.0))):
            made = frame.bar(f"leg {n}", (foot, 0), (head, 600))
            frame.model.def_releases(made[0], Ryj=True)
        frame.bar("cleat", (250, 600), (950, 600))
        frame.model.add_node_load(frame.node(250, 600), "FX", 100.0)
        frame.model.def_support_spring(frame.node(250, 600), "DX", 1.0)
        if brace:
            frame.bar("brace", (0, 0), (950, 600), pinned=True)
        frame.solve()
        sunk.append(float(frame.model.nodes[frame.node(250, 600)].DX["Combo 1"]))
    assert sunk[0] > 1000 * sunk[1]
