"""Groups of parts to cut, made from a seed: furniture as shops build it, and published test families.

Furniture: inches in sixteenths, five lengths with prices that do not grow evenly, parts at full width and
ripped, end trims. All invented.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass

from yardwright.domain.cutting.model import CutRules, NeededPart, StockLine

INCH, FOOT, SIXTEENTH = 25_400_000, 304_800_000, 25_400_000 // 16
FEET = (8, 10, 12, 14, 16)


@dataclass(frozen=True, slots=True)
class Group:
    """What the planner is asked."""

    name: str
    parts: tuple[NeededPart, ...]
    stock: tuple[StockLine, ...]
    rules: CutRules


def sixteenths(rng: random.Random, low_in: float, high_in: float) -> int:
    return rng.randint(int(low_in * 16), int(high_in * 16)) * SIXTEENTH


def boards(rng: random.Random, width_nm: int) -> tuple[StockLine, ...]:
    """Five lengths of one width: longer ones cost more by the foot, but not evenly."""
    per_foot = rng.uniform(110, 260) * width_nm / (5.5 * INCH)
    premium = [rng.uniform(0.94, 1.06) * (1 + 0.02 * step) for step in range(len(FEET))]
    return tuple(
        StockLine(f"{feet} ft", feet * FOOT, width_nm, round(feet * per_foot * more))
        for feet, more in zip(FEET, premium, strict=True)
    )


def furniture(seed: int, prefix: str = "") -> Group:
    """One group of one product: 3 to 9 kinds of parts, mostly in pairs and fours, some ripped."""
    rng = random.Random(seed)
    width = round(rng.choice((3.5, 5.5, 5.5, 7.25)) * INCH)
    parts = []
    for number in range(rng.randint(3, 9)):
        ripped = rng.random() < 0.3
        wide = sixteenths(rng, 1.25, width / INCH - 0.5) if ripped else width
        count = rng.choice((1, 2, 2, 2, 3, 4, 4, 4, 5, 6, 8))
        parts.append(NeededPart(f"{prefix}{number + 1}", sixteenths(rng, 9, 60), wide, count))
    rules = CutRules(
        INCH // 8, INCH // 8, rng.choice((0, INCH // 4, INCH // 2)), least_rip_length_nm=12 * INCH,
        least_strip_nm=3 * INCH // 4, least_offcut_nm=12 * INCH,
    )
    return Group(f"furniture {seed}", tuple(parts), boards(rng, width), rules)


def merged(seed: int, products: int = 12) -> Group:
    """Several products cut together from one width."""
    rng = random.Random(seed)
    width = round(5.5 * INCH)
    parts: list[NeededPart] = []
    for product in range(products):
        for part in furniture(1_000 * seed + product, f"{chr(65 + product)}").parts:
            wide = width if part.width_nm > 4.75 * INCH else part.width_nm
            parts.append(NeededPart(part.mark, part.length_nm, wide, part.count))
    rules = CutRules(INCH // 8, INCH // 8, INCH // 4, least_rip_length_nm=12 * INCH,
                     least_strip_nm=3 * INCH // 4)
    return Group(f"merged {seed}", tuple(parts), boards(rng, width), rules)


def times(group: Group, number: int) -> Group:
    """The same product, ``number`` of them."""
    parts = tuple(
        NeededPart(p.mark, p.length_nm, p.width_nm, p.count * number) for p in group.parts
    )
    return Group(f"{group.name} x {number}", parts, group.stock, group.rules)


def bins(name: str, lengths: Sequence[int], capacity: int) -> Group:
    """A one-dimensional family: one stock length at price 1, no kerf."""
    parts = tuple(NeededPart(f"{i}", length, 1, lengths.count(length)) for i, length in
                  enumerate(sorted(set(lengths), reverse=True)))
    return Group(name, parts, (StockLine("bin", capacity, 1, 1),), CutRules(0, 0))


def uniform(seed: int, items: int) -> Group:
    """Falkenauer's uniform class: whole lengths from 20 to 100, capacity 150 (1996; from memory)."""
    rng = random.Random(seed)
    return bins(f"uniform {items}", [rng.randint(20, 100) for _ in range(items)], 150)


def triplets(seed: int, items: int) -> Group:
    """Falkenauer's triplets: every bin of 1000 is exactly three items of 250 to 500; optimum items / 3.

    Recipe (1996, from memory): first item 380..490, second 250..(rest - 250), third what is left.
    """
    rng = random.Random(seed)
    lengths: list[int] = []
    for _ in range(items // 3):
        first = rng.randint(380, 490)
        second = rng.randint(250, 1000 - first - 250)
        lengths += [first, second, 1000 - first - second]
    return bins(f"triplets {items}", lengths, 1000)


def schwerin_waescher(seed: int, items: int = 100, low: int = 150, high: int = 200) -> Group:
    """Schwerin and Waescher (1997): capacity 1000, whole lengths 150..200 (100 or 120 items; from memory)."""
    rng = random.Random(seed)
    return bins(f"Schwerin-Waescher {items}", [rng.randint(low, high) for _ in range(items)], 1000)
