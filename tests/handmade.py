"""Pieces made by hand for tests of the checks: boxes for members, contacts found from their faces."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from itertools import combinations
from pathlib import Path
from typing import Any

from yardwright.domain.checks.rule import Case, case_of
from yardwright.domain.fit.model import Fit
from yardwright.domain.formula.model import Formula
from yardwright.domain.market import BoardStock, Figure, Goods, Market, Section, Timber
from yardwright.domain.measure import Writer
from yardwright.domain.money import Money
from yardwright.domain.piece.model import (
    AskedCheck,
    Box,
    Clash,
    Contact,
    FittedHardware,
    Frame,
    MadeJoint,
    Member,
    Piece,
    Vector,
)
from yardwright.domain.shop import (
    Fitting,
    Identity,
    PriceRules,
    Saw,
    Shop,
    Terms,
)
from yardwright.domain.site import Site
from yardwright.domain.template.model import CheckRule, FitRule, Joint, Template
from yardwright.files.rules import read_limits

LIMITS = Path(__file__).parents[1] / "service/yardwright/data/limits"
AXES: Mapping[str, Vector] = {"x": (1.0, 0.0, 0.0), "y": (0.0, 1.0, 0.0), "z": (0.0, 0.0, 1.0)}
INCH = 25.4


@cache
def limits() -> Mapping[str, Figure]:
    """data/limits as the engine sees it."""
    return read_limits(LIMITS)


def timber(id_: str, treated: str = "", wet: float = 15.0, durability: str = "resistant",
           **figures: float) -> Timber:
    """A timber with only the figures named."""
    return Timber(id_, id_.replace("-", " "), "", "softwood", durability, treated, wet,
                  {name: Figure(value, "", "test", "seen") for name, value in figures.items()})


CEDAR = timber("western-red-cedar", density_kg_m3=358.0, specific_gravity=0.32, rupture_mpa=51.7,
               elasticity_mpa=7653.0, tangential_movement=0.00234, tangential_shrinkage_pct=5.0)
PINE = timber("southern-pine-uc4a", treated="UC4A", wet=60.0, durability="treated, UC4A", density_kg_m3=571.0,
              specific_gravity=0.51, rupture_mpa=88.3, elasticity_mpa=12342.0, tangential_movement=0.00259,
              tangential_shrinkage_pct=7.4)
UNNAMED = timber("bog-larch")


def box(key: str, low: Vector, size: Vector, along: str = "x", thick: str = "z", kind: Timber = CEDAR,
        grade: str = "Select Knotty", group: str = "fixed", glue_up: str = "", section: str = "") -> Member:
    """A board as an upright box: its corner, its extent along x, y, z, and how its grain and face lie."""
    wide = next(a for a in "xyz" if a not in (along, thick))
    sizes = {a: size["xyz".index(a)] for a in "xyz"}
    volume = size[0] * size[1] * size[2]
    centre = (low[0] + size[0] / 2, low[1] + size[1] / 2, low[2] + size[2] / 2)
    density = kind.figures["density_kg_m3"].value if "density_kg_m3" in kind.figures else 500.0
    frame = Frame(low, AXES[along], AXES[wide], AXES[thick])
    return Member(key, key.rstrip("0123456789 "), "slat", "board", group, section, kind.id, grade,
                  sizes[along], sizes[wide], sizes[thick], sizes[wide], frame, None, volume,
                  centre, 0.0, 0.0, density, (), "", "along", True, glue_up)


def extent(member: Member) -> tuple[Vector, Vector]:
    """The box's low and high corner."""
    low = member.frame.origin
    return low, member.frame.to_world(member.length_mm, member.width_mm, member.thickness_mm)


def contacts(members: Sequence[Member]) -> tuple[Contact, ...]:
    """Faces of two boxes in one plane with a patch in common."""
    found = []
    for a, b in combinations(members, 2):
        (a_low, a_high), (b_low, b_high) = extent(a), extent(b)
        for k in range(3):
            rest = [j for j in range(3) if j != k]
            low = [max(a_low[j], b_low[j]) for j in range(3)]
            high = [min(a_high[j], b_high[j]) for j in range(3)]
            if any(high[j] - low[j] < 0.5 for j in rest):
                continue
            for sign, ours, theirs in ((1.0, a_high[k], b_low[k]), (-1.0, a_low[k], b_high[k])):
                if abs(ours - theirs) < 0.05:
                    low[k] = high[k] = ours
                    normal = [0.0, 0.0, 0.0]
                    normal[k] = sign
                    area = (high[rest[0]] - low[rest[0]]) * (high[rest[1]] - low[rest[1]])
                    middle = [(p + q) / 2 for p, q in zip(low, high, strict=True)]
                    found.append(Contact(a.key, b.key, area, (normal[0], normal[1], normal[2]),
                                         (middle[0], middle[1], middle[2]), (low[0], low[1], low[2]),
                                         (high[0], high[1], high[2])))
    return tuple(found)


NUMBER = Formula("1", 1, "number")
TEMPLATE = Template("test", 1, "Test", "", (), (), (), (), "western-red-cedar", (), "none", (), (), {},
                    FitRule((), {}, ()), (), (), (), (), (), (), (), ())


def piece(members: Sequence[Member], checks: Sequence[AskedCheck] = (),
          screwed: Iterable[tuple[str, str]] = (), hardware: Sequence[FittedHardware] = (),
          clashes: Sequence[Clash] = (), notes: Sequence[str] = (),
          lid: tuple[Vector, Vector, float] | None = None, **choices: str) -> Piece:
    """A piece of boxes; ``screwed`` names pairs (by the beginnings of their keys) that two screws hold."""
    touching = contacts(members)
    joints = []
    for one, other in screwed:
        held = tuple(c for c in touching if (c.first.startswith(one) and c.second.startswith(other))
                     or (c.first.startswith(other) and c.second.startswith(one)))
        assert held, f"{one} and {other} do not touch"
        joints.append(MadeJoint(Joint(f"{one} to {other}", (one,), (other,), "screws"), held, 2 * len(held)))
    lows, highs = zip(*(extent(m) for m in members), strict=True)
    whole = Box((min(p[0] for p in lows), min(p[1] for p in lows), min(p[2] for p in lows)),
                (max(p[0] for p in highs), max(p[1] for p in highs), max(p[2] for p in highs)))
    mass = sum(m.mass_kg for m in members)
    centre = tuple(sum(m.mass_kg * m.centre[k] for m in members) / mass for k in range(3))
    return Piece(TEMPLATE, {}, {"timber": "western-red-cedar", **choices}, {}, tuple(members), touching,
                 tuple(joints), (), tuple(hardware), (), (), tuple(checks), whole, whole, tuple(clashes),
                 mass, (centre[0], centre[1], centre[2]), tuple(notes), {"lid": lid} if lid else {})


def asked(rule: str, members: Sequence[str] = (), words: Mapping[str, str] | None = None,
          **values: Any) -> AskedCheck:
    """A check as a piece carries it, values worked out."""
    return AskedCheck(CheckRule(rule, words=words or {}), values, tuple(members))


def shop(timbers: Sequence[Timber] = (CEDAR, PINE, UNNAMED), boards: Sequence[BoardStock] = (),
         goods: Sequence[Goods] = (), without: Sequence[str] = ()) -> Shop:
    """A shop with limits and timbers, and nothing else that the checks look at."""
    none = Money(0, "USD")
    market = Market({t.id: t for t in timbers}, {}, tuple(boards), (), (), tuple(goods), {}, "", False)
    return Shop(
        "test", "in", Identity("Test", (), "", "", ""), market, Saw(0, 0, 0, 0, 0, 0, 0, 0, 0, 1_587_500, 0),
        Fitting("II", 0, 0, 0, 0), {}, Figure(0.0, "", "", ""),
        PriceRules("USD", "half-up", none, none, none, "0", "margin", "0", {}, {}, (), "0", 0.0, none, none,
                   0.0),
        Terms(30, (2, 4), 8.0, (), (), ()), {k: v for k, v in limits().items() if k not in without}, {}, {},
        {})


def case(made: Piece, site: Site | None = None, at: Shop | None = None, units: str = "in",
         fit: Fit | None = None) -> Case:
    """What a check looks at."""
    return case_of(made, fit, site or Site(), at or shop(), Writer(units))


def stock(section: Section, kind: Timber, grade: str, moisture: str) -> BoardStock:
    """One line of a yard's list."""
    return BoardStock("X", section, kind.id, grade, moisture, 2_438_400_000, Money(100, "USD"))
