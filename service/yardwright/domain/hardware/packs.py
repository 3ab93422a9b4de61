"""The cheapest whole packs that cover an amount."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import groupby
from math import ceil, gcd

from ..market import Goods

PER_UNIT = 100               # pack contents are counted down to hundredths: a centilitre of a litre
# A table longer than this is not filled: beyond it the pack that is cheapest by content takes the bulk.
LONGEST_TABLE = 50_000
Packs = tuple[tuple[Goods, int], ...]


def cover(goods: Sequence[Goods], amount: float) -> Packs:
    """The packs, at least one, that hold ``amount`` for the least money; then the fewest packs, then by code.

    Packs of different metals are never mixed: stainless with stainless, galvanised with galvanised.

    >>> from yardwright.domain.money import Money
    >>> screws = [Goods("S100", "", "screw", 100, "each", Money(10_00, "USD")),
    ...           Goods("S350", "", "screw", 350, "each", Money(30_00, "USD"))]
    >>> [(goods.code, packs) for goods, packs in cover(screws, 440)]
    [('S100', 1), ('S350', 1)]
    """
    metals = groupby(sorted(goods, key=lambda g: (g.material, g.code)), key=lambda g: g.material)
    return min((_cheapest(tuple(same), amount) for _, same in metals), key=_rank)


def _rank(packs: Packs) -> tuple[int, int, tuple[str, ...]]:
    cost = sum(g.price.minor * n for g, n in packs)
    return (cost, sum(n for _, n in packs), tuple(g.code for g, _ in packs))


def _cheapest(goods: tuple[Goods, ...], amount: float) -> Packs:
    """Dynamic programme over the amount in the greatest unit that all packs are whole numbers of."""
    contents = [max(1, int(g.per_pack * PER_UNIT + 1e-6)) for g in goods]
    unit = gcd(*contents)
    sizes = [content // unit for content in contents]
    wanted = max(1, ceil(amount * PER_UNIT / unit - 1e-6))
    bulk = min(range(len(goods)), key=lambda k: (goods[k].price.minor / sizes[k], -sizes[k]))
    certain = max(0, (wanted - LONGEST_TABLE) // sizes[bulk])
    counts = Counter(_fill(goods, sizes, max(0, wanted - certain * sizes[bulk])))
    counts[bulk] += certain
    return tuple((goods[k], counts[k]) for k in sorted(counts) if counts[k])


def _fill(goods: Sequence[Goods], sizes: Sequence[int], wanted: int) -> list[int]:
    """Indices of the packs, one for each pack, that hold ``wanted`` units at the least cost."""
    best: list[tuple[int, int, int]] = [(0, 0, -1)]
    for left in range(1, wanted + 1):
        best.append(min((best[max(0, left - size)][0] + pack.price.minor, best[max(0, left - size)][1] + 1, k)
                        for k, (pack, size) in enumerate(zip(goods, sizes, strict=True))))
    packs = []
    while wanted > 0:
        packs.append(best[wanted][2])
        wanted -= sizes[packs[-1]]
    return packs
