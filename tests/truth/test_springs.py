"""Beams on yielding supports against PyNiteFEA (general-purpose open-source frame analysis)."""

from __future__ import annotations

import random

import pytest
from Pynite import FEModel3D

from yardwright.domain.checks.beam import on_springs


def random_beam(seed: int) -> tuple[float, list[tuple[float, float]], float, float]:
    """A beam on 2-7 springs between soft screws and firm wood, a unit load anywhere."""
    pick = random.Random(1000 + seed)
    length, count = pick.uniform(300, 2500), pick.randint(2, 7)
    places = [(length * (i + pick.uniform(0.05, 0.95)) / count, 10 ** pick.uniform(2.5, 4.5))
              for i in range(count)]
    return length, places, pick.uniform(0.0, 1.0) * length, 10 ** pick.uniform(8.5, 11)


@pytest.mark.parametrize("seed", range(70))
def test_shares_of_springs_agree_with_a_frame_program(seed: int) -> None:
    """Within 0.1 % of each reaction (of the load where it is small) and of the give under the load."""
    length, places, at, stiffness = random_beam(seed)
    model = FEModel3D()
    model.add_material("wood", 1e4, 1e4 / 16, 0.3, 1e-9)
    model.add_section("board", 1e6, stiffness / 1e4, stiffness / 1e4, 1e6)
    marks = sorted({0.0, length, at, *(p for p, _ in places)})
    for n, x in enumerate(marks):
        model.add_node(f"N{n}", x, 0, 0)
        model.def_support(f"N{n}", n == 0, False, True, True, True, False)
    for place, stiff in places:
        model.def_support_spring(f"N{marks.index(place)}", "DY", stiff)
    model.add_member("beam", "N0", f"N{len(marks) - 1}", "wood", "board")
    model.add_node_load(f"N{marks.index(at)}", "FY", -1000.0)
    model.analyze_linear()
    down = [-model.nodes[f"N{marks.index(p)}"].DY["Combo 1"] for p, _ in places]
    shares, gives = on_springs(length, places, at, stiffness)
    expected = [d * k / 1000 for d, (_, k) in zip(down, places, strict=True)]
    assert shares == pytest.approx(expected, rel=1e-3, abs=1e-3)
    assert sum(shares) == pytest.approx(1.0, abs=1e-6)
    assert gives == pytest.approx(-model.nodes[f"N{marks.index(at)}"].DY["Combo 1"] / 1000, rel=1e-3)
