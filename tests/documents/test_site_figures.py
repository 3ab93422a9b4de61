"""The measured space over places drawn by lot: figures are what the arrows span and what the fit says."""

from __future__ import annotations

import os
from collections.abc import Iterator
from random import Random

import pytest

from documents.apart import apart
from documents.dimensions import measured
from documents.pieces import TEMPLATES, random_piece, shop
from yardwright.documents.drawing.draw import draw
from yardwright.documents.drawing.model import Drawing, Line, Polygon, Text
from yardwright.documents.drawing.pdf import legible
from yardwright.domain.errors import Refused
from yardwright.domain.fit import Fit, envelope, fit, with_way_in
from yardwright.domain.measure import Writer, from_mm, to_mm
from yardwright.domain.piece.model import Piece
from yardwright.domain.site import Access, Corner, Measured, Obstruction, Site, Wall

SEEDS = range(int(os.environ.get("PIECES", "5")))
KINDS = ("between walls", "corner", "against a wall")
ROUNDED = 0.81
PAPER = ((259.0, 230.0), (259.0, 145.0))


def place(piece: Piece, lot: Random) -> Site:
    """Walls, a depth from a hair more than the piece to three times as much, things on the wall, a gate."""
    length, depth, _ = (from_mm(mm) for mm in piece.standing_mm)
    run = round(length * lot.uniform(1.02, 2.4)) // 1_000_000 * 1_000_000
    things = tuple(Obstruction(kind, round(run * at), round(run * at) + from_mm(80.0), from_mm(60.0))
                   for kind, at in (("downpipe", 0.02), ("tap", 0.8)) if lot.random() < 0.4)
    kind = lot.choice(KINDS)
    walls = [Wall("back", (Measured(run),), obstructions=things)]
    walls += [Wall(side, (Measured(depth),)) for side in {"between walls": ("left", "right"),
                                                          "corner": ("left",)}.get(kind, ())]
    corners = (Corner("left", lot.choice((90.0, 88.0, 92.0))),) if kind == "corner" else ()
    out = round(depth * lot.choice((1.06, 1.1, 1.2, 1.5, 3.0))) // 1_000_000 * 1_000_000
    gate = Access("gate", from_mm(lot.choice((700.0, 900.0, 1200.0))))
    wide = Access("passage", from_mm(1300.0))
    return Site(kind, tuple(walls), corners, (Measured(out),), access=(gate, wide))


def plans(name: str) -> Iterator[tuple[Drawing, Piece, Site, Fit, str]]:
    for seed in SEEDS:
        try:
            piece, units = random_piece(name, seed)
        except Refused:
            continue
        site = place(piece, Random(f"place {name} {seed}"))
        found = fit(piece.template, piece.dimensions_nm, piece.choices, site, shop(), units, sized=False)
        found = with_way_in(found, piece, site.access, Writer(units))
        yield draw(piece, "plan", units, False, site, found), piece, site, found, units


@pytest.mark.parametrize("name", TEMPLATES)
def test_every_figure_is_as_long_as_its_arrows_reach(name: str) -> None:
    for plan, piece, _, found, _ in plans(name):
        # Free distances are told after the tape's doubt, and by a depth that is sure to hold the piece.
        sure = envelope(piece.template, piece.dimensions_nm, piece.choices).depth_nm
        more = ROUNDED + to_mm(found.uncertainty_nm) + max(0.0, to_mm(sure) - piece.standing_mm[1])
        for size in measured(plan):
            assert abs(size.said_mm - size.drawn_mm) < (more if size.text.endswith("free") else ROUNDED), size


@pytest.mark.parametrize("name", TEMPLATES)
def test_what_is_free_in_front_is_drawn_however_little_it_is(name: str) -> None:
    drawn = 0
    for plan, _, _, found, units in plans(name):
        front = next((c.clearance_nm for c in found.clearances if c.side == "front"), 0)
        if front > 0 and "wing" not in {c.side for c in found.clearances}:
            drawn += 1
            assert f"{Writer(units).length(front)} free" in [m.text for m in measured(plan)]
    assert drawn or name == "corner-bench"


@pytest.mark.parametrize("name", [n for n in TEMPLATES if n != "corner-bench"])
def test_the_piece_is_told_as_long_and_as_deep_as_it_stands(name: str) -> None:
    for plan, piece, _, _, units in plans(name):
        said = [s.text for s in plan.shapes if isinstance(s, Text)]
        length, depth, _ = piece.standing_mm
        long, deep = Writer(units).mm(length), f"{Writer(units).mm(depth)} deep"
        assert long in said
        assert {deep, Writer(units).mm(depth)} & set(said) or f"The piece is {deep}" in plan.notes


@pytest.mark.parametrize("name", [n for n in TEMPLATES if n != "corner-bench"])
def test_the_piece_is_drawn_clear_of_what_stands_out_from_the_wall_where_it_fits(name: str) -> None:
    for plan, _, site, found, _ in plans(name):
        things = [s.points for s in plan.shapes if isinstance(s, Polygon) and s.edge == "site"]
        corners = [p for s in plan.shapes if isinstance(s, Line) and s.style == "thin" for p in s.points]
        if not (found.positions and corners):
            continue
        left, right, top = (min(p[0] for p in corners), max(p[0] for p in corners),
                            max(p[1] for p in corners))
        for thing in things[:len(site.walls[0].obstructions)]:
            xs, ys = [p[0] for p in thing], [p[1] for p in thing]
            assert right <= min(xs) + 1 or left >= max(xs) - 1 or top <= min(ys) + 1


@pytest.mark.parametrize("name", TEMPLATES)
def test_words_stand_clear_on_the_phone_and_on_paper(name: str) -> None:
    for plan, piece, site, found, units in plans(name):
        apart(plan)
        for room in PAPER:
            apart(legible(draw(piece, "plan", units, False, site, found, 20.0), *room))


@pytest.mark.parametrize("name", TEMPLATES)
def test_the_tightest_spot_of_the_way_in_is_told_with_what_was_found_of_it(name: str) -> None:
    for plan, _, site, found, units in plans(name):
        gate = min(site.access, key=lambda a: a.width_nm)
        note = next(n for n in plan.notes if n.startswith("Way in"))
        assert f"{gate.kind}: {Writer(units).length(gate.width_nm)} wide" in note
        whole = all(f.level == "ok" for f in found.findings if f.rule == "way in")
        assert ("It can be carried in." in note) == whole
