"""The cheapest whole packs that cover an amount."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from math import ceil

from ..market import Goods

Packs = tuple[tuple[Goods, int], ...]


def cover(goods: Sequence[Goods], amount: float) -> Packs:
    """The packs, at least one, that hold ``amount`` for the least money; then the fewest packs, then by code.

    Packs of different metals are never mixed: stainless with stainless, galvanised with galvanised.
    """
    metals = groupby(sorted(goods, key=lambda g: (g.material, g.code)), key=lambda g: g.material)
    best = min((_cheapest(tuple(same), amount) for _, same in metals), key=_rank)
    return tuple((g, n) for g, n in best if n)


def _rank(packs: Packs) -> tuple[int, int, tuple[str, ...]]:
    return (sum(g.price.minor * n for g, n in packs), sum(n for _, n in packs),
            tuple(g.code for g, n in packs if n))


def _cheapest(goods: tuple[Goods, ...], amount: float) -> Packs:
    """Bulk in the pack that is cheapest by content, the rest tried in every mix.

    More of another pack than two bulk packs hold never pays: bulk holds the same for less.
    """
    bulk = min(goods, key=lambda g: (g.price.minor / g.per_pack, -g.per_pack, g.code))
    others = tuple((g, ceil(2 * bulk.per_pack / g.per_pack) + 1) for g in goods if g is not bulk)
    loose = sum(g.per_pack * most for g, most in others)
    certain = max(0, int((amount - loose) // bulk.per_pack))
    mixes = ((*rest, (bulk, certain + _more(bulk, left)))
             for rest, left in _mixes(others, amount - certain * bulk.per_pack))
    return min(mixes, key=_rank)


def _mixes(goods: tuple[tuple[Goods, int], ...], amount: float) -> Iterator[tuple[Packs, float]]:
    if not goods:
        yield (), amount
        return
    (first, most), rest = goods[0], goods[1:]
    for number in range(min(_more(first, amount), most) + 1):
        for packs, left in _mixes(rest, amount - number * first.per_pack):
            yield ((first, number), *packs), left


def _more(goods: Goods, amount: float) -> int:
    return max(0, ceil(amount / goods.per_pack - 1e-9))
