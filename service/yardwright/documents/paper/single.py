"""One item alone: what it is, its measured views and its place, on one page wherever they can be."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from reportlab.platypus import Flowable, Spacer

from ..drawing.model import Drawing
from ..pages.fitting import FirstThatFits
from ..pages.words import SECTION, para
from .items import contents
from .space import space_block
from .views import view_tables

Json = Mapping[str, Any]

# Heights in points of a row of views and of the plan of the space, tried in turn.
_HEIGHTS = ((250.0, 230.0), (215.0, 230.0), (190.0, 220.0), (170.0, 210.0), (150.0, 200.0), (140.0, 180.0),
            (130.0, 160.0))


def single(item: Json, drawings: Sequence[Drawing], width: float) -> list[Flowable]:
    """Contents, views and measured space of the only item, as large as one page takes."""
    plan = next((d for d in drawings if d.view == "site"), None)
    blocks = [[para("What you get", SECTION), contents(item, width), *_apart(drawings, width, views),
               *space_block(item, plan, width, place)] for views, place in _HEIGHTS]
    return [FirstThatFits(blocks)]


def _apart(drawings: Sequence[Drawing], width: float, high: float) -> list[Flowable]:
    return [one for row in view_tables(drawings, width, high) for one in (Spacer(0, 4), row)]
