"""Is the piece as large as it was asked, and does the fit's envelope hold it? mm.

A dimension named length, depth or height is that size of the whole piece, as the customer chose it, unless
it tells what else it ``measures``; where there is none of that name, ``[overall]`` says what is asked. The
solids come out as asked to the working step, and never larger.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from .. import formula
from ..errors import Fault
from ..measure import Writer, to_mm
from ..shop import Shop
from ..template.stands import IN_GROUND
from .model import Piece

SLACK_MM = 0.02          # arcs are chords; floating sums
LONG = {"length": "long", "depth": "deep", "height": "high"}
BEFORE = {"length": "its left end", "depth": "its front", "height": "the ground"}


def overall_faults(piece: Piece, shop: Shop, say: Writer) -> Iterator[Fault]:
    """Length and depth of the solids, height from the ground, against what was asked."""
    step = to_mm(shop.saw.step_nm)
    asked = asked_mm(piece)
    for k, name in enumerate(LONG):
        where, said = f"/overall/{name}", formula.evaluate(piece.template.overall[name], piece.values)
        if _off(said, wanted := asked.get(name, said), step):
            yield Fault(where, f"says {say.fine(said)} where the customer asks for a {name} of "
                               f'{say.fine(wanted)}: let it say "{name}", or tell in [dimensions.{name}] '
                               'what else that is the size of, by measures = "..."')
        if off := _off(piece.standing_mm[k], wanted, step):
            or_else = "" if name in asked else ", or what [overall] says"
            it_is = _as_it_is(name, piece.standing_mm[k], wanted, off, say)
            yield Fault(where, f"the piece comes out {it_is}, {_reaching(piece, k)}: mend the "
                               f"members{or_else}")
        dug = name == "height" and piece.template.stands == IN_GROUND
        if (low := piece.closed.low[k]) < -SLACK_MM and not dug:
            yield Fault(where, f"{_furthest(piece, k, -1)} reaches to {'xyz'[k]} = {say.fine(low)}, where 0 "
                               f"is {BEFORE[name]}: move it, or all the rest")


@dataclass(frozen=True, slots=True)
class OffSize:
    """An overall size that is not what was asked, mm; ``off_mm`` less than nothing is too small. ``words``:
    ``49 in long where 44 in is asked, 5 in too much``."""

    size_mm: float
    asked_mm: float
    off_mm: float
    words: str


def not_as_asked(piece: Piece, shop: Shop, say: Writer) -> tuple[OffSize, ...]:
    """The overall sizes that are more than the customer asked, or less by more than the working step."""
    asked, step = asked_mm(piece), to_mm(shop.saw.step_nm)
    return tuple(OffSize(size, asked[name], off, _as_it_is(name, size, asked[name], off, say))
                 for name, size in zip(LONG, piece.standing_mm, strict=True)
                 if name in asked and (off := _off(size, asked[name], step)))


def _as_it_is(name: str, size: float, wanted: float, off: float, say: Writer) -> str:
    return (f"{say.fine(size)} {LONG[name]} where {say.fine(wanted)} is asked, {say.fine(abs(off))} "
            f"{'too much' if off > 0 else 'too little'}")


def asked_mm(piece: Piece) -> dict[str, float]:
    """The overall sizes that the customer chose himself."""
    elsewhere = {d.name for d in piece.template.dimensions if d.measures}
    return {name: to_mm(nm) for name, nm in piece.used_nm.items() if name in LONG and name not in elsewhere}


def _off(size: float, asked: float, step: float) -> float:
    """How much too large (or, less than nothing, too small by more than the working step); else 0."""
    if size > asked + SLACK_MM or size < asked - step - SLACK_MM:
        return size - asked
    return 0.0


def _reaching(piece: Piece, k: int) -> str:
    first, last = _furthest(piece, k, -1), _furthest(piece, k, 1)
    return f"from {first} to {last}" if first != last else f"as {first} is"


def _furthest(piece: Piece, k: int, way: int) -> str:
    """The member that reaches furthest along an axis, or against it; what has no solid weighs nothing."""
    return max(piece.members, key=lambda m: max(way * corner[k] for corner in m.corners)).key


def envelope_faults(piece: Piece, say: Writer) -> Iterator[Fault]:
    """What the fit promises must hold the solids, shut and open."""
    said = {name: formula.evaluate(f, piece.values) for name, f in piece.template.fit.envelope.items()}
    wing = piece.template.fit.wing
    if wing is not None and (side := formula.evaluate(wing, piece.values)) != "none":
        yield from _notch(piece, said, side, say)
        said["depth"] = max(said["depth"], said["wing_length"])
    shut, opened = piece.closed, piece.opened
    needed = {"length": shut.high[0], "depth": shut.high[1], "height": shut.high[2],
              "open_height": opened.high[2], "open_front": -opened.low[1],
              "open_behind": opened.high[1] - shut.high[1]}
    if opened.high[2] <= shut.high[2] + SLACK_MM and "open_height" not in said:
        del needed["open_height"]
    for name, least in needed.items():
        given = said.get(name, said["height"] if name == "open_height" else 0.0)
        if given < least - SLACK_MM:
            yield Fault(f"/fit/envelope/{name}", f"is {say.fine(given)}; the piece needs {say.fine(least)}, "
                                                 f"{say.fine(least - given)} more: say at least that much")
    sideways = max(-opened.low[0], opened.high[0] - shut.high[0])
    if sideways > SLACK_MM:
        yield Fault("/groups", f"open, the piece stands {say.fine(sideways)} beyond its ends, which no fit "
                               "can tell: turn the hinge so that it opens within the piece's ends")


def _notch(piece: Piece, said: Mapping[str, float], side: str, say: Writer) -> Iterator[Fault]:
    """An L's solids keep out of the quarter that its fit says is free; lids in motion are not looked at."""
    front = said["wing_length"] - said["depth"]
    low, high = ((0.0, said["wing_depth"]) if side == "left" else
                 (said["length"] - said["wing_depth"], said["length"]))
    for m in piece.members:
        deep = max((min(front - y, max(low - x, x - high)) for x, y, _ in m.corners), default=0.0)
        if deep > SLACK_MM:
            yield Fault("/fit/envelope", f"says that the place beside the wing is free; {m.key} reaches "
                                         f"{say.fine(deep)} into it: move it, or mend its wing_length or "
                                         "wing_depth")
