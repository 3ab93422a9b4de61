"""Beams against handbook cases and against a general-purpose frame program (PyNiteFEA).

B1-B7: worked with the closed formulas of any beam handbook (PL/4, wL²/8, PL³/48EI, 5wL⁴/384EI: memory),
figures recomputed by hand in inches and pounds.
"""

from __future__ import annotations

import random

import pytest
from Pynite import FEModel3D

from yardwright.domain.checks.beam import Load, bend

# name, b in, d in, span in, P lbf at the centre, w lbf/in, E psi -> M in-lb, f_b psi, deflection in
HAND_CASES = [
    ("B1 2x6 flat, wet", 5.5, 1.5, 48, 250, 0, 1.4e6 * 0.9, 3000, 1454.5, 0.2955),
    ("B2 2x4 flat, cedar wet", 3.5, 1.5, 24, 250, 0, 0.9e6, 1500, 1142.9, 0.0813),
    ("B3 5/4x6 flat, pine wet", 5.5, 1.0, 16, 250, 0, 1.26e6, 1000, 1090.9, 0.0369),
    ("B4 2x6 on edge", 1.5, 5.5, 72, 0, 5.0, 1.4e6, 3240, 428.4, 0.0601),
    ("B5 2x4 on edge", 1.5, 3.5, 60, 0, 5.0, 1.4e6, 2250, 734.7, 0.1125),
    ("B6 2x8 on edge", 1.5, 7.25, 96, 0, 10.0, 1.4e6, 11520, 876.7, 0.1658),
    ("B7 145x45 mm flat", 145, 45, 1200, 1112, 0, 11000, 333600, 6.82, 3.305),
]


@pytest.mark.parametrize("case", HAND_CASES, ids=lambda c: c[0])
def test_worked_beams_of_the_handbook_come_out(case: tuple[object, ...]) -> None:
    _, b, d, span, point, line, e, moment, stress, deflection = case
    load = Load(point, span / 2) if point else Load(line * span, span / 2, span)
    bent = bend(span, [0, span], [load], e * b * d**3 / 12)
    assert bent.moment_nmm == pytest.approx(moment, rel=1e-6)
    assert bent.moment_nmm / (b * d * d / 6) == pytest.approx(stress, rel=2e-3)
    assert bent.deflection_mm == pytest.approx(deflection, rel=2e-3)
    assert sum(bent.reactions_n) == pytest.approx(load.force_n)


def test_two_equal_spans_uniform_give_the_handbook_reactions() -> None:
    """3wL/8, 10wL/8, 3wL/8 and a support moment wL²/8 (beam handbook; memory)."""
    bent = bend(200, [0, 100, 200], [Load(200, 100, 200)], 1e6)
    assert bent.reactions_n == pytest.approx((37.5, 125.0, 37.5))
    assert (bent.moment_nmm, bent.moment_at_mm) == pytest.approx((1250.0, 100.0))


def test_a_load_at_the_tip_of_an_overhang() -> None:
    """M = P·a, tip deflection P·a²(L + a)/3EI (beam handbook; memory)."""
    bent = bend(130, [0, 100], [Load(10, 130)], 1e6)
    assert bent.moment_nmm == pytest.approx(300)
    assert bent.deflection_mm == pytest.approx(10 * 30**2 * 130 / 3e6)
    assert bent.reactions_n == pytest.approx((-3.0, 13.0))


def test_a_patch_in_the_middle_of_a_span() -> None:
    """M = P(L/4 - a/8) for a load spread over a in the middle (beam handbook; memory)."""
    bent = bend(400, [0, 400], [Load(1000, 200, 100)], 1e9)
    assert bent.moment_nmm == pytest.approx(1000 * (400 / 4 - 100 / 8))


def random_beam(seed: int) -> tuple[float, list[float], list[Load], float, float]:
    """A beam on 2-6 supports with 1-4 loads, point and spread, both ends free to overhang."""
    pick = random.Random(seed)
    length = pick.uniform(500, 3000)
    count = pick.randint(2, 6)
    supports = sorted(length * (i + pick.uniform(0.1, 0.9)) / count for i in range(count))
    loads = [Load(pick.uniform(100, 2000), pick.uniform(0.15, 0.85) * length,
                  pick.choice([0.0, 0.0, pick.uniform(40, 0.29 * length)]))
             for _ in range(pick.randint(1, 4))]
    return length, supports, loads, pick.uniform(6000, 14000), pick.uniform(2e5, 5e6)


def frame_of(length: float, supports: list[float], loads: list[Load], e: float, i: float) -> FEModel3D:
    """The same beam for PyNite, with many nodes so that greatest values are found closely."""
    model = FEModel3D()
    model.add_material("wood", e, e / 16, 0.3, 1e-9)
    model.add_section("board", 1e4, i, i, 2 * i)
    marks = sorted({0.0, length, *supports, *(length * n / 60 for n in range(1, 60))})
    for n, x in enumerate(marks):
        model.add_node(f"N{n}", x, 0, 0)
        model.def_support(f"N{n}", n == 0, x in supports, True, True, True, False)
    model.add_member("beam", "N0", f"N{len(marks) - 1}", "wood", "board")
    for load in loads:
        if load.over_mm:
            w, half = -load.force_n / load.over_mm, load.over_mm / 2
            model.add_member_dist_load("beam", "Fy", w, w, load.at_mm - half, load.at_mm + half)
        else:
            model.add_member_pt_load("beam", "Fy", -load.force_n, load.at_mm)
    model.analyze_linear()
    return model


@pytest.mark.parametrize("seed", range(100))
def test_random_beams_agree_with_a_frame_program(seed: int) -> None:
    """PyNiteFEA (general-purpose open-source frame analysis): within 0.1 % of each greatest value."""
    length, supports, loads, e, i = random_beam(seed)
    model = frame_of(length, supports, loads, e, i)
    beam = model.members["beam"]
    xs = [length * n / 1000 for n in range(1001)]
    moment = max(abs(beam.moment("Mz", x, "Combo 1")) for x in [*xs, *supports, *(d.at_mm for d in loads)])
    deflection = max(abs(beam.deflection("dy", x, "Combo 1")) for x in xs)
    shear = max(abs(beam.shear("Fy", x, "Combo 1")) for x in
                [*xs[:-1], *(s + side for s in supports for side in (-1e-3, 1e-3)),
                 *(d.at_mm + side for d in loads for side in (-1e-3, 1e-3))])
    marks = {round(n.X, 6): n for n in model.nodes.values()}
    reactions = [marks[round(s, 6)].RxnFY["Combo 1"] for s in supports]
    bent = bend(length, supports, loads, e * i)
    assert bent.moment_nmm == pytest.approx(moment, rel=1e-3)
    assert bent.shear_n == pytest.approx(shear, rel=1e-3)
    assert bent.deflection_mm == pytest.approx(deflection, rel=1e-3)
    assert bent.reactions_n == pytest.approx(reactions, rel=1e-3, abs=1e-2)
