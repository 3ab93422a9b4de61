"""Jobs by chance, seeded: the five templates in both shops, sizes and choices in range, places that pinch.

Places are drawn around the piece, so that about half leave too little room, a gate too narrow, a fall of the
ground, a drop behind, a deck with a load to keep to. Nothing is chosen to be sound or unsound.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from datetime import date

from builders import INCH, MM, demo_shop, demo_shop_metric
from yardwright.domain import measure, piece
from yardwright.domain.errors import Refused
from yardwright.domain.job import Customer, Item, Job
from yardwright.domain.shop import Shop
from yardwright.domain.site import Access, Corner, Ground, Measured, Obstruction, Site, Wall
from yardwright.quoting import piece_of

TEMPLATES = ("storage-bench", "planter-box", "picnic-table", "lounge-chair", "corner-bench")
SURFACES = ("paving", "deck", "soil", "gravel", "grass", "balcony")
EXPOSURES = ("", "sheltered", "suburban", "open", "coast")


def jobs(number: int, seed: int = 1) -> Iterator[tuple[Job, Shop]]:
    """So many jobs with their shops, each template in each shop in turn."""
    for n in range(number):
        shop, units = ((demo_shop(), "in"), (demo_shop_metric(), "mm"))[n // len(TEMPLATES) % 2]
        chance = random.Random(f"{seed}-{n}")
        item = _item(TEMPLATES[n % len(TEMPLATES)], units, shop, chance)
        yield Job(f"R-{n}", units, date(2026, 11, 9), Customer(), _site(item, units, shop, chance),
                  (item,)), shop


def _item(name: str, units: str, shop: Shop, chance: random.Random) -> Item:
    template = shop.templates[name]
    sizes, words = {}, {}
    for dimension in template.dimensions:
        if chance.random() < 0.6:
            step = dimension.step_nm[units]
            least, most = -(-dimension.least_nm // step), dimension.most_nm // step
            sizes[dimension.name] = chance.randint(least, most) * step
    for choice in piece.offered(template, shop):
        heavier = choice.name.endswith("_section")
        if chance.random() < (0.1 if heavier else 0.5):
            words[choice.name] = chance.choice(choice.options)[0]
    asked = Item(name, sizes, words)
    try:
        piece_of(asked, units, shop, solids=False)
    except Refused:                      # a heavier section that is not sold in the timber
        return Item(name, sizes, {c: word for c, word in words.items() if not c.endswith("_section")})
    return asked


def _site(item: Item, units: str, shop: Shop, chance: random.Random) -> Site:
    """Room along, out and above of 80 to 140 % of the piece; things on the wall; a way in of 24 to 60 in."""
    made = piece_of(item, units, shop, True)
    length, depth, height = (measure.from_mm(mm) for mm in made.standing_mm)
    kind = chance.choice(("between walls", "corner", "against a wall", "open", "open"))
    ground = _ground(chance)
    access = tuple(_access(chance) for _ in range(chance.choice((0, 0, 1, 1, 2))))
    if kind == "open":
        return Site(ground=ground, access=access, exposure=chance.choice(EXPOSURES))
    run = _about(length, 0.8, 1.4, chance)
    things = tuple(_thing(run, shop, chance) for _ in range(chance.choice((0, 0, 1))))
    walls = [Wall("back", (Measured(run, height, 0),), obstructions=things)]
    sides = {"between walls": ("left", "right"), "corner": (chance.choice(("left", "right")),)}.get(kind, ())
    walls += [Wall(side, (Measured(_about(depth, 0.9, 1.5, chance)),)) for side in sides]
    corners = tuple(Corner(side, 90 + chance.choice((0.0, 0.5, -0.7))) for side in sides)
    depths = (Measured(depth + chance.randint(-4, 60) * INCH),)
    under = chance.choice((None, _about(height, 0.9, 1.6, chance)))
    return Site(kind, tuple(walls), corners, depths, under, ground, access, chance.choice(EXPOSURES))


def _about(size_nm: int, least: float, most: float, chance: random.Random) -> int:
    return round(size_nm * chance.uniform(least, most) / MM) * MM


def _ground(chance: random.Random) -> Ground:
    fall, away = chance.choice((0.0, 0.0, 0.01, 0.03)), chance.choice((0.0, 0.02))
    drop = chance.choice((None, None, 0, 20 * INCH, 40 * INCH))
    surface = chance.choice(SURFACES)
    load = chance.choice((None, 2.0, 4.0)) if surface in ("deck", "balcony") else None
    return Ground(surface, fall, away, drop, load)


def _access(chance: random.Random) -> Access:
    kind = chance.choice(("gate", "passage", "stairs", "turn"))
    width = chance.randint(24, 60) * INCH
    height = chance.choice((None, 78 * INCH, 84 * INCH))
    return Access(kind, width, height, chance.choice((None, 36 * INCH)) if kind == "turn" else None)


def _thing(run_nm: int, shop: Shop, chance: random.Random) -> Obstruction:
    start = round(run_nm * chance.uniform(0.0, 0.9) / MM) * MM
    bottom = chance.randint(0, 60) * INCH
    return Obstruction(chance.choice(sorted(shop.keep_clear)), start, start + 6 * INCH, 4 * INCH, bottom,
                       bottom + 10 * INCH)
