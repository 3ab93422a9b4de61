"""The shipped templates over their whole range, in both shops: what geometry alone can prove.

No clash of solids with the lid open or shut, members of a joint touch, overall size as asked to the working
step, the fit's envelope holds the open piece, parts workable and within the longest stock. The corners and
some points between here; `make check-templates` tries more.
"""

from __future__ import annotations

import pytest

from builders import DATA, demo_shop, demo_shop_metric
from yardwright.domain.piece import trial
from yardwright.files.templates import load

SHOPS = {"inch": demo_shop, "metric": demo_shop_metric}


MANY = {"lounge-chair", "corner-bench", "picnic-table"}     # 16 or 32 corners: one set of choices at each


@pytest.mark.parametrize("name", sorted(path.stem for path in (DATA / "templates").glob("*.toml")))
@pytest.mark.parametrize("shop", SHOPS)
def test_a_template_resizes_over_its_whole_range(name: str, shop: str) -> None:
    points, at_corners = (15, 1) if name in MANY else (20, 6)
    report = trial(load(DATA / "templates" / f"{name}.toml"), SHOPS[shop](), points, 2026, at_corners)
    told = [f"{f.detail} at {f.point.words()}" for f in report.faults]
    assert report.good, told[:5]
