"""The views of a piece with their dimensions, in the job's units.

Dimensions stand outside the piece in rows, the shortest nearest to it, so that their words never meet.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from yardwright.domain.measure import Writer

from .angles import leans
from .callouts import Callout, placed, readable
from .legs import Legs, around
from .model import PHONE_TEXT_SHARE, Bounds, Drawing, Line, Point, Shape, Text, text_box, text_width
from .projection import VIEWS, Ring
from .shading import shaded
from .shapes import dimension
from .visible import visible_lines

TITLES = {"front": "Front", "side": "Right side", "plan": "Plan", "isometric": "Three-quarter view"}
# Across the picture and up it, in words.
_ACROSS = {"front": "length", "side": "depth", "plan": "length"}
_UPWARD = {"front": "height", "side": "height", "plan": "depth"}

_ROW = 2.1                   # rows of dimensions are this many text heights apart


@dataclass(frozen=True, slots=True)
class Levels:
    """Heights above the ground worth a dimension of their own: ("seat height", 430.0); the legs of an L."""

    heights: tuple[tuple[str, float], ...] = ()
    legs: Legs | None = None


def view_of(members: Sequence[Sequence[Ring]], view: str, writer: Writer, name: str,
            levels: Levels | None = None, opened: bool = False, text_mm: float | None = None,
            callouts: Sequence[Callout] = (), legs: Legs | None = None) -> Drawing:
    """One view of placed solids: "front", "side", "plan" (with dimensions) or "isometric" (without).

    Front and side call out how far their lines lean, and what ``callouts`` says of places in the picture;
    the plan of an L tells both ``legs``.
    """
    outline, inner = visible_lines(members, VIEWS[view])
    lines: tuple[Shape, ...] = (*(Line(s, "visible") for s in inner), *(Line(s, "outline") for s in outline))
    body = _standing(view, Drawing("", lines).bounds)
    state = ", open" if opened else ""
    title = f"{name}: {TITLES[view].lower()}{state}"
    if view == "isometric":
        tones = shaded(members, VIEWS[view])
        return Drawing(title, (*tones, *lines), f"{name} seen from the front right and above{state}.", view,
                       margin_mm=0.01 * max(body.width, body.height), opened=opened)
    levels = replace(levels or Levels(), legs=legs)
    said = () if opened else tuple(callouts)
    sizes = {_ACROSS[view]: body.width, _UPWARD[view]: body.height}

    def drawn(height: float) -> Drawing:
        shapes = (*lines, *_around(view, body, writer, height, levels))
        if not opened:
            shapes += _called_out(view, body, (*outline, *inner), shapes, said, height)
        return Drawing(title, shapes, _described(name, view, state, sizes, writer), view,
                       margin_mm=0.3 * height, opened=opened, again=drawn)

    return drawn(text_mm) if text_mm else readable(drawn, _phone_height(view, body, writer, levels))


def _called_out(view: str, body: Bounds, segments: Sequence[tuple[Point, Point]], drawn: Sequence[Shape],
                callouts: Sequence[Callout], height: float) -> tuple[Shape, ...]:
    """Leaning lines with their angle, and the callouts given, clear of the words already there."""
    marks, said = leans(segments, body, height) if view in ("front", "side") else ([], [])
    taken = [text_box(s) for s in drawn if isinstance(s, Text)]
    return (*marks, *placed((*said, *callouts), body, taken, height))


def _standing(view: str, seen: Bounds) -> Bounds:
    """What is drawn, down to the ground it stands on: feet may keep the timber off it."""
    if view not in ("front", "side") or seen.low[1] <= 0.0:
        return seen
    return Bounds((seen.low[0], 0.0), seen.high)


def _around(view: str, body: Bounds, writer: Writer, height: float, levels: Levels) -> tuple[Shape, ...]:
    """Ground line and dimensions around the picture of a piece."""
    if levels.legs is not None:
        return around(levels.legs, body, writer, height)
    return (*_ground(view, body, height), *_overall(body, writer, height),
            *_risers(view, body, writer, height, levels))


def _phone_height(view: str, body: Bounds, writer: Writer, levels: Levels) -> float:
    """Text height that reads on a phone: a fixed share of the width, the dimensions' own room included."""
    trial = 0.03 * max(body.width, body.height)
    room = Drawing("", _around(view, body, writer, trial, levels)).bounds
    wide = max(body.width, 0.75 * body.height)
    per_height = (room.width - body.width) / trial
    return PHONE_TEXT_SHARE * wide / max(0.4, 1.0 - PHONE_TEXT_SHARE * per_height)


def _ground(view: str, body: Bounds, height: float) -> tuple[Shape, ...]:
    if view == "plan":
        return ()
    return (Line(((body.low[0] - 1.2 * height, body.low[1]), (body.high[0] + 1.2 * height, body.low[1])),
                 "site"),)


def _overall(body: Bounds, writer: Writer, height: float) -> tuple[Shape, ...]:
    """Overall width below and overall height to the left."""
    corner, right, top = body.low, (body.high[0], body.low[1]), (body.low[0], body.high[1])
    gap = 0.5 * height
    return (*dimension(corner, right, writer.mm(body.width), height, off_mm=-_ROW * height, gap_mm=gap),
            *dimension(corner, top, writer.mm(body.height), height,
                       off_mm=_upright_off(writer.mm(body.height), height), gap_mm=gap))


def _upright_off(text: str, height: float) -> float:
    """How far to the left an upright dimension must stand for its level words to clear the piece."""
    return text_width(text, height) / 2 + 1.4 * height


def _risers(view: str, body: Bounds, writer: Writer, height: float, levels: Levels) -> tuple[Shape, ...]:
    """Named heights to the right, each in its own row, the lowest nearest."""
    if view == "plan":
        return ()
    shapes: list[Shape] = []
    off = 0.0
    for value in sorted({round(value, 1) for _, value in levels.heights}):
        if not 0.0 < value < body.height - 1.0:
            continue
        text = writer.mm(value)
        off += _upright_off(text, height) if not off else text_width(text, height) + height
        foot = (body.high[0], body.low[1])
        shapes += dimension(foot, (foot[0], foot[1] + value), text, height, off_mm=-off, gap_mm=0.5 * height)
    return tuple(shapes)


def _described(name: str, view: str, state: str, sizes: Mapping[str, float], writer: Writer) -> str:
    said = ", ".join(f"{what} {writer.mm(size)}" for what, size in sizes.items())
    return f"{name}, {TITLES[view].lower()}{state}: {said} overall."
