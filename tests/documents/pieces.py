"""Pieces of the shipped templates at sizes and choices of one's own, and members made from nothing."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from random import Random

from yardwright.domain.parts import Part, cut_list
from yardwright.domain.piece import build
from yardwright.domain.piece.model import Piece
from yardwright.domain.shop import Shop
from yardwright.domain.template import Template, sizes
from yardwright.wiring import load_shop


@cache
def shop() -> Shop:
    return load_shop("demo_shop")


def template(name: str) -> Template:
    found: Template = shop().templates[name]
    return found


TEMPLATES = sorted(shop().templates)


def piece_at(name: str, dimensions_nm: Mapping[str, int], choices: Mapping[str, str], units: str) -> Piece:
    wanted = template(name)
    return build(wanted, *sizes(wanted, dimensions_nm, choices, units), shop(), units)


def random_piece(name: str, seed: int) -> tuple[Piece, str]:
    """A piece at sizes and choices drawn by lot, on steps; the units by lot too."""
    lot = Random(f"{name} {seed}")
    wanted, units = template(name), lot.choice(("in", "mm"))
    dimensions = {}
    for d in wanted.dimensions:
        steps = (d.most_nm - d.least_nm) // d.step_nm[units]
        share = lot.choice((0.0, 1.0, lot.random(), lot.random()))
        dimensions[d.name] = d.least_nm + round(share * steps) * d.step_nm[units]
    choices = {c.name: lot.choice(c.options)[0] for c in wanted.choices}
    return piece_at(name, dimensions, choices, units), units


def parts_of(piece: Piece) -> tuple[Part, ...]:
    return cut_list(((piece, 1),), shop())
