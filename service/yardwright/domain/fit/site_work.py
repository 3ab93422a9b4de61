"""What a piece takes at the customer's beyond setting it down: joining what goes in in parts, and levelling.

Only counts; what they cost is labour's. Nothing is left for the site where the whole piece is known to go in,
and no shims or saw are needed where the ground was not said to fall.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from ..measure import Writer, from_mm
from ..piece.model import Piece
from ..shop import Shop
from ..site import Site
from .envelope import envelope
from .ground import Levelling, levelling
from .in_parts import Split, brought
from .scribing import scribed_nm
from .space import cornered, space
from .stand import stand

GLUED = ("glue", "none")         # places that nothing is driven into


@dataclass(frozen=True, slots=True)
class SiteWork:
    """Parts set to the first of them, fasteners driven there, legs scribed and shimmed; ``longer_nm``: what
    each leg, by its member's key, is left longer in the shop for that; ``edges_nm``: the edges scribed to
    walls out of plumb or off square."""

    parts: int = 0
    fasteners: int = 0
    scribed: int = 0
    shimmed: int = 0
    longer_nm: Mapping[str, int] = field(default_factory=dict)
    edges_nm: tuple[int, ...] = ()

    @property
    def words(self) -> tuple[str, ...]:
        """What is done there, for the line that it is priced on."""
        counted = ((self.parts, f"joined from {self.parts + 1} parts"),
                   (self.scribed, f"{_legs(self.scribed)} scribed to the ground"),
                   (self.shimmed, f"{_legs(self.shimmed)} shimmed"),
                   (len(self.edges_nm), f"{_edges(len(self.edges_nm))} scribed to the walls"))
        return tuple(said for count, said in counted if count)


def _legs(count: int) -> str:
    return "1 leg" if count == 1 else f"{count} legs"


def _edges(count: int) -> str:
    return "1 edge" if count == 1 else f"{count} edges"


def site_work(piece: Piece, site: Site, shop: Shop, installed: bool = False) -> SiteWork:
    """The work of one piece on its site: its way in, the fall of the ground under it, the walls at its ends.

    Edges are scribed only where it is ``installed``.
    """
    split = brought(piece, site.access).split
    level = _levelling(piece, site, shop)
    return SiteWork(
        parts=0 if split is None else max(0, len(split.units) - 1),
        fasteners=0 if split is None else _driven(split),
        scribed=0 if level is None else level.scribed, shimmed=0 if level is None else level.shimmed,
        longer_nm={} if level is None else dict.fromkeys(level.legs, from_mm(level.most_mm)),
        edges_nm=_scribed(piece, site, shop) if installed else ())


def _scribed(piece: Piece, site: Site, shop: Shop) -> tuple[int, ...]:
    shape = envelope(piece.template, piece.dimensions_nm, piece.choices)
    measured = space(cornered(site, shape.wing), shop, Writer("mm"))
    return scribed_nm(shape, measured, stand(shape, measured))


def _driven(split: Split) -> int:
    return sum(count for kind, count in split.fasteners.items() if kind not in GLUED)


def _levelling(piece: Piece, site: Site, shop: Shop) -> Levelling | None:
    """What makes up the fall; None where nothing does, or the shop has no figure to judge it by."""
    figures = [shop.limits.get(f"ground.{name}") for name in ("touching", "shimmed", "foot_travel")]
    lowest = min((z for m in piece.members for _, _, z in m.corners), default=0.0)
    if any(figure is None for figure in figures):
        return None
    touching, shimmed, travel = (figure.value for figure in figures if figure is not None)
    return levelling(piece, site.ground, lowest + touching, shimmed, travel)
