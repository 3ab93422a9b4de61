"""Drawings of a piece: one view for a screen, or the set that a paper carries."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from yardwright.domain.fit import cornered
from yardwright.domain.measure import Writer, to_mm

from .angles import curves
from .legs import legs_of
from .model import Drawing
from .projection import Ring
from .site_plan import site_plan
from .solids import solids
from .views import TITLES, Levels, view_of

if TYPE_CHECKING:
    from yardwright.domain.fit import Fit
    from yardwright.domain.piece.model import Piece
    from yardwright.domain.site import Site

__all__ = ["draw", "paper_drawings"]

# On paper the three measured views share one scale and one text height.
PAPER_TEXT_SHARE = 0.036


def draw(piece: Piece, view: str, units: str, opened: bool = False, site: Site | None = None,
         fit: Fit | None = None, text_mm: float | None = None) -> Drawing:
    """One view of the piece ("front", "side", "plan", "isometric"), the lid shut or open.

    A plan with a site that was measured shows the space around the piece as well. With ``text_mm`` it is for
    a paper: words of that height, and notes in the drawing's ``notes`` only.
    """
    if view not in TITLES:
        raise ValueError(f"no view '{view}': one of {', '.join(TITLES)}")
    writer = Writer(units)
    members = solids(piece, opened)
    legs = legs_of(piece) if view == "plan" else None
    if view == "plan" and site is not None and site.kind != "open":
        site = cornered(site, legs.side) if legs else site
        return site_plan(members, site, fit, writer, piece.template.name, text_mm is None, legs)
    levels = _levels(piece, view, members) if not opened else Levels()
    said = curves(piece, view, writer) if view != "isometric" and not opened else ()
    return view_of(members, view, writer, piece.template.name, levels, opened, text_mm, said, legs)


def paper_drawings(piece: Piece, units: str, site: Site | None = None, fit: Fit | None = None,
                   item: int = 0) -> tuple[Drawing, ...]:
    """The drawings of one item of a quote: shut and open, three measured views, the space."""
    length, depth, height = piece.closed.size
    text_mm = PAPER_TEXT_SHARE * max(length + depth, 1.1 * height)
    found = [draw(piece, "isometric", units)]
    if piece.moving:
        found.append(draw(piece, "isometric", units, opened=True))
    found += [draw(piece, view, units, text_mm=text_mm) for view in ("front", "side", "plan")]
    if piece.moving:
        found.append(draw(piece, "side", units, opened=True, text_mm=text_mm))
    if site is not None and site.kind != "open":
        found.append(draw(piece, "plan", units, site=site, fit=fit, text_mm=text_mm))
    return tuple(replace(d, item=item) for d in found)


def _levels(piece: Piece, view: str, members: list[list[Ring]]) -> Levels:
    """Heights the customer chose, such as the seat's, that are the top of something in the picture."""
    if view not in ("front", "side"):
        return Levels()
    from_ground = {d.name for d in piece.template.dimensions if "above" not in d.label}
    chosen = {name: to_mm(nm) for name, nm in piece.used_nm.items()
              if name.endswith("height") and name in from_ground}
    if isinstance(seat := piece.values.get("seat_height"), (int, float)):
        chosen.setdefault("seat_height", float(seat))
    tops = [max(p[2] for ring in rings for p in ring) for rings in members]
    return Levels(tuple((name, mm) for name, mm in chosen.items() if any(abs(t - mm) < 2.0 for t in tops)))
