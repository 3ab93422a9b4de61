"""A piece's figures without its solids: all that a check of sizes alone needs, in a tenth of the time."""

from __future__ import annotations

from collections.abc import Mapping

from ..errors import BadTemplate, Fault
from ..formula import Budget, Spent
from ..shop import Shop
from ..template.model import Template
from ..template.sizes import sizes
from .model import AskedCheck, Box, Piece
from .stock import pick_stock, sizes_of
from .values import work_out

WORK = 400_000           # steps that working the values out may take
_NOWHERE = Box((0.0, 0.0, 0.0), (0.0, 0.0, 0.0))


def figures(template: Template, dimensions_nm: Mapping[str, int], choices: Mapping[str, str], shop: Shop,
            units: str) -> Piece:
    """The piece with its values and what its checks ask for, but no member: it has no size and no weight.

    Only for rules that say they look at no solids. Raises what build raises, but for what members break.
    """
    full, chosen = sizes(template, dimensions_nm, choices, units)
    stock = pick_stock(template, chosen["timber"], shop.market, chosen)
    try:
        values = work_out(template, full, chosen, sizes_of(stock), shop, Budget(WORK))
        checks = tuple(AskedCheck(c, {name: values.of(made) for name, made in c.values.items()}, ())
                       for c in template.checks if values.holds(c.when))
    except Spent as spent:
        raise BadTemplate(Fault("", f"to work its values out takes {spent}")) from spent
    return Piece(template=template, dimensions_nm=full, choices=chosen, values=values.named, members=(),
                 contacts=(), joints=(), glue_ups=(), hardware=(), operations=(), assembly=(), checks=checks,
                 closed=_NOWHERE, opened=_NOWHERE, clashes=(), mass_kg=0.0, centre=(0.0, 0.0, 0.0))
