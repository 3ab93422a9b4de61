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
# What a shop rips to: cleats, ledgers, leg strips, narrow boards.
RIPS_IN = (1.25, 1.5, 1.75, 2.0, 2.25, 2.3125, 2.5, 2.75, 3.0, 3.0625, 3.5, 4.0, 4.5)


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
        wide = (
            int(rng.choice([w for w in RIPS_IN if w * INCH < width - INCH // 4]) * INCH) if ripped else width
        )
        count = rng.choice((1, 2, 2, 2, 3, 4, 4, 4, 5, 6, 8))
        parts.append(NeededPart(f"{prefix}{number + 1}", sixteenths(rng, 9, 60), wide, count))
    rules = CutRules(
        INCH // 8,
        INCH // 8,
        rng.choice((0, INCH // 4, INCH // 2)),
        least_rip_length_nm=12 * INCH,
        least_strip_nm=3 * INCH // 4,
        least_offcut_nm=12 * INCH,
    )
    return Group(f"furniture {seed}", tuple(parts), boards(rng, width), rules)


def merged(seed: int, products: int = 12) -> Group:
    """Several products cut together from one width."""
    rng = random.Random(seed)
    width = round(5.5 * INCH)
    parts: list[NeededPart] = []
    for product in range(products):
        for part in furniture(1_000 * seed + product, f"{chr(65 + product)}").parts:
            wide = part.width_nm if part.width_nm in {int(w * INCH) for w in RIPS_IN[:-3]} else width
            parts.append(NeededPart(part.mark, part.length_nm, wide, part.count))
    rules = CutRules(
        INCH // 8, INCH // 8, INCH // 4, least_rip_length_nm=12 * INCH, least_strip_nm=3 * INCH // 4
    )
    return Group(f"merged {seed}", tuple(parts), boards(rng, width), rules)


def times(group: Group, number: int) -> Group:
    """The same product, ``number`` of them."""
    parts = tuple(NeededPart(p.mark, p.length_nm, p.width_nm, p.count * number) for p in group.parts)
    return Group(f"{group.name} x {number}", parts, group.stock, group.rules)


def bins(name: str, lengths: Sequence[int], capacity: int) -> Group:
    """A one-dimensional family: one stock length at price 1, no kerf."""
    parts = tuple(
        NeededPart(f"{i}", length, 1, lengths.count(length))
        for i, length in enumerate(sorted(set(lengths), reverse=True))
    )
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


def any_group(seed: int) -> Group:
    """Small whole numbers and every rule at once: counted and blocked boards, trims, matched sets."""
    rng = random.Random(seed)
    widths = rng.choice(((20,), (20, 30), (12, 20)))
    stock = []
    for width in widths:
        for length in rng.sample((60, 80, 96, 120, 144), rng.randint(1, 3)):
            on_hand = rng.random() < 0.15
            count = rng.randint(1, 2) if on_hand else rng.choice((None, None, None, 2))
            start = rng.randint(0, length - 5)
            blocked = ((start, start + rng.randint(1, 5)),) if rng.random() < 0.2 else ()
            price = 0 if on_hand else int(length * width * rng.uniform(0.8, 1.2))
            stock.append(
                StockLine(f"{width}x{length}", length, width, price, "board", count, on_hand, blocked)
            )
    parts = []
    for number in range(rng.randint(1, 6)):
        width = rng.choice((widths[0], widths[0], widths[-1], rng.randint(3, widths[0])))
        parts.append(
            NeededPart(
                f"P{number}", rng.randint(5, 50), width, rng.randint(1, 4), trim_edges=rng.random() < 0.15
            )
        )
    if rng.random() < 0.2:
        sets, length = rng.randint(1, 3), rng.randint(5, 40)
        for mark, each in (("M1", 1), ("M2", 2)):
            parts.append(NeededPart(mark, length, rng.randint(3, 8), sets * each, matched="leg", sets=sets))
    rules = CutRules(
        rng.randint(0, 2),
        rng.randint(0, 2),
        rng.choice((0, 1)),
        rng.choice((0, 1)),
        rng.choice((None, 130)),
        rng.choice((0, 12)),
        rng.choice((0, 3)),
        rng.choice((0, 10)),
    )
    return Group(f"any {seed}", tuple(parts), tuple(stock), rules)
