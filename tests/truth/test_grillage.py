"""The bench's lid as one grillage in a frame program, against the engine's board-by-board walk.

The engine takes every board on rigid supports and the cleats one level down. PyNiteFEA (general-purpose
open-source frame analysis) takes boards and cleats together, cleats bending: the engine's moments, with its
allowance for supports that settle, must not be below it.
"""

from __future__ import annotations

from itertools import pairwise

import pytest
from Pynite import FEModel3D

from builders import demo_shop
from yardwright.domain.checks import boards, seat_load
from yardwright.domain.checks.rule import Case, case_of
from yardwright.domain.checks.supports import footing, places, supports
from yardwright.domain.checks.verdict import Verdict
from yardwright.domain.measure import Writer
from yardwright.domain.piece.build import build
from yardwright.domain.piece.model import Member
from yardwright.domain.site import Site

E = 7000.0                                # the same for all: moments depend on ratios only


def lid(length_nm: int) -> tuple[Case, list[Verdict]]:
    """The bench of this length, and the verdicts on its seat load."""
    shop = demo_shop()
    made = build(shop.templates["storage-bench"], {"length": length_nm}, {}, shop, "in")
    case = case_of(made, None, Site(), shop, Writer("in"))
    asked = next(c for c in made.checks if c.rule.rule == "seat load")
    kind = boards.Boards(seat_load._board_cases, seat_load._carrier_cases, "deflection")
    _, verdicts = boards.judged(asked, case, kind)
    return case, verdicts


class Grillage:
    """Beams crossing in one plane, all nodes shared, no twist stiffness."""

    def __init__(self, case: Case) -> None:
        self.model = FEModel3D()
        self.model.add_material("wood", E, E / 16, 0.3, 1e-9)
        self.names: dict[tuple[float, float], str] = {}
        self.held: set[str] = set()
        self.beams: dict[str, list[str]] = {}
        asked = next(c for c in case.piece.checks if c.rule.rule == "seat load")
        on = footing(case, frozenset(asked.members))
        seats = [m for m in case.piece.members if m.name == "Seat board"]
        cleats = [m for m in case.piece.members if m.name == "Lid cleat"]
        for seat in seats:
            held = [s for s in supports(case, seat, on) if case.member(s.key).name != "Lid cleat"]
            self.lay(seat, (0, seat.centre[1]), "x", {c.centre[0] for c in cleats}, places(held))
        for cleat in cleats:
            rows = {s.centre[1] for s in seats
                    if self.start(cleat) < s.centre[1] < self.start(cleat) + cleat.length_mm}
            self.lay(cleat, (cleat.centre[0], self.start(cleat)), "y", rows,
                     places(supports(case, cleat, on)))
        for name in self.names.values():
            self.model.def_support(name, True, True, name in self.held, False, False, True)

    @staticmethod
    def start(cleat: Member) -> float:
        return cleat.frame.origin[1]

    def node(self, x: float, y: float) -> str:
        """The node within half a millimetre, or a new one."""
        for (nx, ny), name in self.names.items():
            if abs(nx - x) < 0.5 and abs(ny - y) < 0.5:
                return name
        name = f"N{len(self.names)}"
        self.names[x, y] = name
        self.model.add_node(name, x, y, 0)
        return name

    def lay(self, member: Member, start: tuple[float, float], way: str, crossings: set[float],
            held_mm: tuple[float, ...]) -> None:
        flat = abs(member.frame.thick[2]) > 0.7
        wide, deep = ((member.width_mm, member.thickness_mm) if flat
                      else (member.thickness_mm, member.width_mm))
        self.model.add_section(member.key, wide * deep, wide * deep**3 / 12, wide * deep**3 / 12, 1e-3)
        at = {0.0, member.length_mm, *held_mm, *(c - start[0 if way == "x" else 1] for c in crossings)}
        at |= {x for x in (member.length_mm * n / 24 for n in range(1, 24))
               if min(abs(x - a) for a in at) > 3}
        marks = sorted({round(a, 1) for a in at})
        nodes = [self.node(start[0] + a, start[1]) if way == "x" else self.node(start[0], start[1] + a)
                 for a in marks]
        self.held |= {nodes[marks.index(round(h, 1))] for h in held_mm}
        self.beams[member.key] = []
        for n, (i, j) in enumerate(pairwise(nodes)):
            name = f"{member.key} {n}"
            self.model.add_member(name, i, j, "wood", member.key)
            self.beams[member.key].append(name)

    def push(self, key: str, force_n: float, at_mm: float, over_mm: float) -> None:
        """A patch load on one beam, put on the stretches it covers."""
        run = 0.0
        for name in self.beams[key]:
            length = self.model.members[name].L()
            low, high = max(at_mm - over_mm / 2 - run, 0.0), min(at_mm + over_mm / 2 - run, length)
            if high > low:
                w = -force_n / over_mm
                self.model.add_member_dist_load(name, "FZ", w, w, low, high)
            run += length

    def greatest_moment(self, key: str) -> float:
        """In the beam's own bending, over all its stretches."""
        return max(max(abs(self.model.members[n].max_moment("My", "Combo 1")),
                       abs(self.model.members[n].min_moment("My", "Combo 1"))) for n in self.beams[key])


@pytest.mark.parametrize("length_in", [24, 44])
def test_board_by_board_is_not_below_the_whole_lid_bending_together(length_in: int) -> None:
    case, verdicts = lid(length_in * 25_400_000)
    judged = {v.member.name: v for v in verdicts}
    seat = [m for m in case.piece.members if m.name == "Seat board"][2]
    cleats = sorted(m.centre[0] for m in case.piece.members if m.name == "Lid cleat")
    force, foot = case.limit("structure.seat_load"), case.limit("structure.foot_patch")
    middle_span, over_cleat = (cleats[0] + cleats[1]) / 2, cleats[len(cleats) // 2]
    seats = [v for v in verdicts if v.member.name == "Seat board"]
    board_moment = cleat_moment = 0.0
    for at in (middle_span, over_cleat):
        grillage = Grillage(case)
        grillage.push(seat.key, force, at, foot)
        grillage.model.analyze_linear()
        board_moment = max(board_moment, grillage.greatest_moment(seat.key))
        cleat_moment = max(cleat_moment, *(grillage.greatest_moment(m.key) for m in case.piece.members
                                           if m.name == "Lid cleat"))
    assert max(v.worst.moment_nmm for v in seats) >= board_moment > 0
    assert judged["Lid cleat"].worst.moment_nmm >= cleat_moment > 0
