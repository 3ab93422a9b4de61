"""Boards bought beyond the plan, since some turn out defective: the shop's share, by grade and section."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..market import BoardStock
from ..shop import Shop
from .model import CuttingPlan


def spare_boards(stock: Sequence[object], cut: CuttingPlan, shop: Shop) -> dict[str, tuple[int, str]]:
    """By stock code: boards added for defects, and the sentence that says so."""
    lines = {line.code: line for line in stock if isinstance(line, BoardStock)}
    bought: dict[int, list[tuple[BoardStock, int]]] = {}
    for purchase in cut.purchases:
        line = lines[purchase.code]
        if not line.on_hand and not line.random_width:  # an estimate's yield holds the defects too
            bought.setdefault(line.width_nm, []).append((line, purchase.count))
    spares: dict[str, tuple[int, str]] = {}
    for chosen in bought.values():
        boards = sum(count for _, count in chosen)
        grade = chosen[0][0].grade
        share = shop.prices.defect_spares.get(grade, "0")
        number = math.ceil(float(share) * boards - 1e-9)
        line, _ = max(chosen, key=lambda entry: (entry[0].length_nm, entry[0].code))
        if number:
            percent = f"{float(share) * 100:g} %"
            spares[line.code] = (
                number,
                (
                    f", {number} more for defects ({percent} of {boards} {line.section.id} boards, "
                    f"grade {grade}, rounded up)"
                ),
            )
    return spares
