"""Which parts a piece is brought in as, where the whole of it does not pass: the least left to do on site.

First only what is hinged comes off; then the piece is taken as it stands before each of its assembly steps,
the last first; at the end it is loose boards and glued blanks. A part is the box around what its joints hold;
mesh and cloth off a roll go in rolled up and are not counted.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..finding import Finding, Level
from ..measure import Writer, from_mm
from ..piece.joints import components, named
from ..piece.model import Member, Piece
from ..site import Access
from .access import RULE, SOURCE, Sizes, carried, in_words, opening_in_words

FIXED = "fixed"


@dataclass(frozen=True, slots=True)
class Unit:
    """What is carried in one go; sizes in nm."""

    name: str
    sizes: Sizes


@dataclass(frozen=True, slots=True)
class Split:
    """One way of taking a piece apart; ``words`` how, ``left`` what is then done on site."""

    words: str
    units: tuple[Unit, ...]
    left: str


def in_parts(piece: Piece, access: Sequence[Access], writer: Writer) -> tuple[Finding, ...]:
    """A note with the parts that pass every narrow place; a stop where even a loose board does not.

    Nothing where the whole piece passes. Source: geometry of the piece and of the places measured.
    """
    if _stuck(_whole(piece), access) is None:
        return ()
    worst: tuple[Unit, Access] | None = None
    for split in splits(piece):
        held = next((stuck for unit in split.units if (stuck := _stuck(unit, access))), None)
        if held is None:
            return (_parts_pass(split, writer),)
        worst = held
    return () if worst is None else (_nothing_passes(*worst, writer),)


def _stuck(unit: Unit, access: Sequence[Access]) -> tuple[Unit, Access] | None:
    return next(((unit, place) for place in access if carried(unit.sizes, place) is None), None)


def _whole(piece: Piece) -> Unit:
    length_mm, depth_mm, height_mm = piece.standing_mm
    return Unit("the whole piece", (from_mm(length_mm), from_mm(depth_mm), from_mm(height_mm)))


def splits(piece: Piece) -> Iterator[Split]:
    """The ways of taking it apart, from least to most work on site."""
    moving = sorted({m.group for m in piece.members} - {FIXED})
    if moving:
        groups = [[m for m in _stiff(piece) if m.group == name] for name in (FIXED, *moving)]
        off = " and ".join(f"the {name}" for name in moving)
        yield Split(f"With {off} taken off", tuple(_unit(g) for g in groups if g),
                    f"hang {off} again")
    steps = [step for step in piece.assembly if step.members]
    for last in range(len(steps) - 1, -1, -1):
        done = {key for step in steps[:last] for key in named(piece.members, step.members)}
        built = "As built so far" if done else "In boards and glued blanks"
        first = f", the first “{steps[last].text}”" if done else ""
        yield Split(built, _units(piece, done), f"the last {len(steps) - last} steps of its assembly{first}")
    if not steps:
        yield Split("In boards and glued blanks", _units(piece, set()), "put it together")


def _stiff(piece: Piece) -> tuple[Member, ...]:
    return tuple(m for m in piece.members if m.material != "roll")


def _units(piece: Piece, done: set[str]) -> tuple[Unit, ...]:
    """What joints hold together among the members done, each blank of glued strips, and single members."""
    by_key = {m.key: m for m in _stiff(piece)}
    links = [(c.first, c.second) for joint in piece.joints if joint.rule.fasten != "none" or joint.rule.glue
             for c in joint.contacts if {c.first, c.second} <= done]
    strips: dict[tuple[str, int], str] = {}
    for m in by_key.values():
        if m.glue_up:
            links.append((strips.setdefault((m.glue_up, m.glue_up_no), m.key), m.key))
    one_group = [(a, b) for a, b in links
                 if a in by_key and b in by_key and by_key[a].group == by_key[b].group]
    return tuple(_unit([by_key[key] for key in keys]) for keys in components(list(by_key), one_group))


def _unit(members: Sequence[Member]) -> Unit:
    """A single member has its blank's own sizes, however it lies in the piece; several the box around."""
    longest = max(members, key=lambda m: m.length_mm)
    if len(members) == 1:
        return Unit(longest.name, (from_mm(longest.length_mm), from_mm(longest.width_mm),
                                   from_mm(longest.thickness_mm)))
    boxes = [m.solid.box for m in members]
    low = [min(box[0][k] for box in boxes) for k in range(3)]
    high = [max(box[1][k] for box in boxes) for k in range(3)]
    x, y, z = (from_mm(b - a) for a, b in zip(low, high, strict=True))
    group = members[0].group
    name = f"the {group}" if group != FIXED else f"the part with {longest.name}"
    return Unit(name, (x, y, z))


def _parts_pass(split: Split, writer: Writer) -> Finding:
    big = max(split.units, key=lambda u: sorted(u.sizes)[1] * sorted(u.sizes)[2])
    size = in_words(big.sizes, writer)
    count = f"{len(split.units)} parts" if len(split.units) != 1 else "1 part"
    return Finding(RULE, Level.NOTE, "It goes in in parts",
                   f"{split.words}: {count}, the biggest {big.name}, {size}. Left to do on site: "
                   f"{split.left}. That time is not in the price unless it was added.", size, "", SOURCE,
                   "Add the time on site to the job.")


def _nothing_passes(unit: Unit, place: Access, writer: Writer) -> Finding:
    size, opening = in_words(unit.sizes, writer), opening_in_words(place, writer)
    return Finding(RULE, Level.STOP, "It cannot be brought in, even in parts",
                   f"{unit.name[0].upper()}{unit.name[1:]} is {size}; the {place.kind} is {opening}.", size,
                   opening, SOURCE, "Find another way in, or choose a smaller piece.")
