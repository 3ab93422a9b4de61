"""What a piece takes at the customer's beyond setting it down: joining what goes in in parts, and levelling.

Only counts; what they cost is labour's. Nothing is left for the site where the whole piece is known to go in,
and no shims or saw are needed where the ground was not said to fall.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..piece.model import Piece
from ..shop import Shop
from ..site import Site
from .ground import levelling
from .in_parts import Split, brought

GLUED = ("glue", "none")         # places that nothing is driven into


@dataclass(frozen=True, slots=True)
class SiteWork:
    """Parts set to the first of them, fasteners driven there, legs scribed and shimmed."""

    parts: int = 0
    fasteners: int = 0
    scribed: int = 0
    shimmed: int = 0

    @property
    def words(self) -> tuple[str, ...]:
        """What is done there, for the line that it is priced on."""
        counted = ((self.parts, f"joined from {self.parts + 1} parts"),
                   (self.scribed, f"{_legs(self.scribed)} scribed to the ground"),
                   (self.shimmed, f"{_legs(self.shimmed)} shimmed"))
        return tuple(said for count, said in counted if count)


def _legs(count: int) -> str:
    return "1 leg" if count == 1 else f"{count} legs"


def site_work(piece: Piece, site: Site, shop: Shop) -> SiteWork:
    """The work of one piece on its site: its way in, and the fall of the ground under it."""
    split = brought(piece, site.access).split
    level = _levelling(piece, site, shop)
    return SiteWork(
        parts=0 if split is None else max(0, len(split.units) - 1),
        fasteners=0 if split is None else _driven(split),
        scribed=0 if level is None else level[0], shimmed=0 if level is None else level[1])


def _driven(split: Split) -> int:
    return sum(count for kind, count in split.fasteners.items() if kind not in GLUED)


def _levelling(piece: Piece, site: Site, shop: Shop) -> tuple[int, int] | None:
    """(scribed, shimmed) legs; None where the shop has no figure to judge it by."""
    figures = [shop.limits.get(f"ground.{name}") for name in ("touching", "shimmed", "foot_travel")]
    lowest = min((z for m in piece.members for _, _, z in m.corners), default=0.0)
    if any(figure is None for figure in figures):
        return None
    touching, shimmed, travel = (figure.value for figure in figures if figure is not None)
    found = levelling(piece, site.ground, lowest + touching, shimmed, travel)
    return None if found is None else (found.scribed, found.shimmed)
