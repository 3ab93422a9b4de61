"""Which parts a piece is brought in as, where the whole of it does not pass: the least left to do on site.

First only what is hinged comes off; then the piece is taken as it stands before each of its assembly steps,
the last first, without the joints that later steps make; at the end it is loose boards and glued blanks. A
part is what its joints hold together; mesh and cloth off a roll go in rolled up and are not counted. A thin
board too long to go round lying may go tilted; where the height for that was not measured, that is not known.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from ..measure import INCH, MM, from_mm
from ..piece.joints import components, named
from ..piece.model import Contact, Member, Piece
from ..piece.solid import hull_corners
from ..piece.vectors import Vector, scaled
from ..site import Access
from ..template.model import AssemblyStep
from .access import Sizes, carried, carried_whole
from .envelope import envelope
from .model import Envelope
from .tilted import carried_tilted

FIXED = "fixed"
NOTCH_MM = 0.5                   # a corner this far within the notch of an L makes it no L
MOST_STEPS = 24                  # of assembly looked at, the last ones; a template may come with a job
MOST_NAMING = 60_000             # members against names; steps that take more are not looked at
SLENDER_NM = (2 * INCH, 8 * INCH)    # a board no thicker and no wider is tilted by hand; judgement
STOOD_UP_NM = 120 * INCH         # as high as one stands up a board where nothing is above; judgement
MOST_TILTED = 12                 # sub-assemblies tried at a tilt; further ones go as boxes or not at all


@dataclass(frozen=True, slots=True)
class Unit:
    """What is carried in one go: its box in nm, and its members."""

    name: str
    sizes: Sizes
    members: tuple[Member, ...]

    @property
    def loose(self) -> bool:
        """A single board, or one glued blank."""
        first = self.members[0]
        return len(self.members) == 1 or (bool(first.glue_up) and len(
            {(m.glue_up, m.glue_up_no) for m in self.members}) == 1)

    @property
    def slender(self) -> bool:
        """A single board that one tilts or stands on end by hand."""
        return len(self.members) == 1 and all(
            size <= most for size, most in zip(sorted(self.sizes)[:2], SLENDER_NM, strict=True))


@dataclass(frozen=True, slots=True)
class Split:
    """One way of taking a piece apart: ``words`` how, ``left`` what is then done on site, and with how many
    fasteners of each kind."""

    words: str
    units: tuple[Unit, ...]
    left: tuple[str, ...]
    fasteners: Mapping[str, int]
    planned: bool = False        # the steps left are those that the template leaves for the site


@dataclass(frozen=True, slots=True)
class Brought:
    """How a piece is brought in: whole (``ways`` say how, place by place), in parts, or not at all.

    With both a split and what is ``stuck``: in parts, if thin boards go tilted under a height not measured.
    """

    split: Split | None
    ways: tuple[str | None, ...]
    stuck: tuple[Unit, Access] | None = None


def brought(piece: Piece, access: Sequence[Access]) -> Brought:
    """The least that has to be left for the site. Where nothing was measured, what the template leaves."""
    planned = next(iter(_by_steps(piece, planned=True)), None)
    if not access:
        return Brought(planned, ())
    ways = _whole(piece, access)
    if None not in ways:
        return Brought(None, ways)
    worst: tuple[Unit, Access] | None = None
    maybe: Brought | None = None
    tilted: dict[tuple[str, Access], bool] = {}
    for split in splits(piece):
        held = next((stuck for unit in split.units if (stuck := _stuck(unit, access, tilted))), None)
        if held is None:
            return Brought(split, ways)
        worst = held
        if maybe is None and all(_may_pass(unit, place) for unit in split.units for place in access):
            maybe = Brought(split, ways, held)
    return maybe or Brought(None, ways, worst)


def _may_pass(unit: Unit, place: Access) -> bool:
    """Whether it passes, or is a thin board that would if nothing stood above a place not measured so."""
    return carried(unit.sizes, place) is not None or (
        unit.slender and place.height_nm is None
        and carried(unit.sizes, replace(place, height_nm=STOOD_UP_NM)) is not None)


def _whole(piece: Piece, access: Sequence[Access]) -> tuple[str | None, ...]:
    """How the whole of it passes each place: by its envelope, an L as the L it is, or at a tilt."""
    shape = envelope(piece.template, piece.dimensions_nm, piece.choices)
    sizes = _box(piece.standing_mm)
    boxed = shape.wing == "none" or not _is_l(piece, shape)
    legs = [] if boxed else _legs(piece, shape)
    return tuple((carried(sizes, place) if boxed else carried_whole(shape, place))
                 or _tilted(_stiff(piece), place, legs) for place in access)


def _is_l(piece: Piece, shape: Envelope) -> bool:
    """Whether the corners of its members keep out of the notch that its envelope says it has."""
    in_main, in_wing = _within(shape)
    return all(in_main(c) or in_wing(c) for m in piece.members for c in m.solid.corners)


def _within(shape: Envelope) -> tuple[Callable[[Vector], bool], Callable[[Vector], bool]]:
    """Whether a place is above the part of an L along the wall, and above its wing."""
    low, high = (edge / MM for edge in shape.wing_stretch)
    front = (shape.whole_depth_nm - shape.depth_nm) / MM
    return (lambda c: c[1] >= front - NOTCH_MM), (lambda c: low - NOTCH_MM <= c[0] <= high + NOTCH_MM)


def _legs(piece: Piece, shape: Envelope) -> list[list[Member]]:
    """The members of both legs of an L; none where one is in neither alone."""
    in_main, in_wing = _within(shape)
    body = _stiff(piece)
    main = [m for m in body if all(map(in_main, m.solid.corners))]
    wing = [m for m in body if m not in main]
    return [main, wing] if main and wing and all(in_wing(c) for m in wing for c in m.solid.corners) else []


def _stuck(unit: Unit, access: Sequence[Access],
           tilted: dict[tuple[str, Access], bool]) -> tuple[Unit, Access] | None:
    """The first place a unit does not pass; ``tilted`` keeps what was tried at a tilt."""
    for place in access:
        if carried(unit.sizes, place) is not None:
            continue
        tried = (" ".join(m.key for m in unit.members), place)
        if not unit.loose and tried not in tilted and len(tilted) < MOST_TILTED:
            tilted[tried] = _tilted(unit.members, place) is not None
        if not tilted.get(tried):
            return unit, place
    return None


def _tilted(members: Sequence[Member], place: Access, legs: Sequence[Sequence[Member]] = ()) -> str | None:
    return carried_tilted(_corners(members), place, [_corners(leg) for leg in legs])


def _corners(members: Sequence[Member]) -> list[Vector]:
    return [scaled(c, MM) for c in hull_corners([c for m in members for c in m.solid.corners])]


def splits(piece: Piece) -> Iterator[Split]:
    """The ways of taking it apart, from least to most work on site."""
    moving = sorted({m.group for m in piece.members} - {FIXED})
    if moving:
        groups = [[m for m in _stiff(piece) if m.group == name] for name in (FIXED, *moving)]
        off = " and ".join(f"the {name}" for name in moving)
        done = _steps(piece)
        yield Split(f"With {off} taken off", tuple(_unit(g, done) for g in groups if g),
                    (f"hang {off} again",), {})
    yield from _by_steps(piece, planned=any(step.on_site for step in piece.assembly))


@dataclass(frozen=True, slots=True)
class _Step:
    """A step of assembly with the members it places, and those that it places or joins."""

    step: AssemblyStep
    places: frozenset[str]
    handles: frozenset[str]


def _steps(piece: Piece) -> list[_Step]:
    """The steps that place or join something; none where to find out what takes too long."""
    steps = [step for step in piece.assembly if step.members or step.joints]
    of = {joint.rule.name: joint.rule.of for joint in piece.joints}
    joined = [tuple(name for joint in step.joints for name in of.get(joint, ())) for step in steps]
    names = sum(len(step.members) + len(more) for step, more in zip(steps, joined, strict=True))
    if names * len(piece.members) > MOST_NAMING:
        return []
    placed = [frozenset(named(piece.members, step.members)) for step in steps]
    return [_Step(step, keys, keys | frozenset(named(piece.members, more)))
            for step, keys, more in zip(steps, placed, joined, strict=True)]


def _by_steps(piece: Piece, planned: bool) -> Iterator[Split]:
    """As it stands before each step, the last first; ``planned``: from the first step left for the site."""
    steps = _steps(piece)
    late = [n for n, done in enumerate(steps) if done.step.on_site]
    if planned and not late:
        return
    first = late[0] if planned else len(steps) - 1
    for last in (*range(first, max(0, first - MOST_STEPS), -1), 0) if steps else ():
        done, left = steps[:last], steps[last:]
        built = "In sub-assemblies" if any(d.places for d in done) else "In boards and glued blanks"
        held, open_ = _held(piece, done, {name for d in left for name in d.step.joints})
        yield Split(built, _units(piece, held, done), tuple(d.step.text for d in left), open_,
                    planned and last == late[0])
    if not steps:
        yield Split("In boards and glued blanks", _units(piece, [], ()), ("put it together",),
                    _held(piece, (), set())[1])


def _held(piece: Piece, done: Sequence[_Step], later: set[str]) -> tuple[list[Contact], dict[str, int]]:
    """The contacts that joints hold by now, and the fasteners of all that they do not hold yet."""
    there = frozenset[str]().union(*(d.places for d in done))
    held: list[Contact] = []
    missing: Counter[str] = Counter()
    for joint in piece.joints:
        made = [c for c in joint.contacts if joint.rule.name not in later and {c.first, c.second} <= there]
        if joint.rule.fasten != "none" or joint.rule.glue:
            held += made
        if joint.contacts:
            missing[joint.rule.fasten] += round(
                joint.fasteners * (len(joint.contacts) - len(made)) / len(joint.contacts))
    return held, {kind: count for kind, count in missing.items() if count}


def _stiff(piece: Piece) -> tuple[Member, ...]:
    return tuple(m for m in piece.members if m.material != "roll")


def _units(piece: Piece, held: Sequence[Contact], done: Sequence[_Step]) -> tuple[Unit, ...]:
    """What contacts hold together, each blank of glued strips, and single members."""
    by_key = {m.key: m for m in _stiff(piece)}
    links = [(c.first, c.second) for c in held]
    strips: dict[tuple[str, int], str] = {}
    for m in by_key.values():
        if m.glue_up:
            links.append((strips.setdefault((m.glue_up, m.glue_up_no), m.key), m.key))
    one_group = [(a, b) for a, b in links
                 if a in by_key and b in by_key and by_key[a].group == by_key[b].group]
    return tuple(_unit([by_key[key] for key in keys], done) for keys in components(list(by_key), one_group))


def _unit(members: Sequence[Member], done: Sequence[_Step]) -> Unit:
    """A single member has its blank's own sizes, however it lies in the piece; several the box around."""
    longest = max(members, key=lambda m: m.length_mm)
    if len(members) == 1:
        return Unit(longest.name, _box((longest.length_mm, longest.width_mm, longest.thickness_mm)),
                    (longest,))
    boxes = [m.solid.box for m in members]
    low, high = ([pick(box[n][k] for box in boxes) for k in range(3)] for n, pick in ((0, min), (1, max)))
    keys = {m.key for m in members}
    made = [d.step.makes for d in done if d.step.makes and not keys.isdisjoint(d.handles)]
    group = members[0].group
    name = (f"the {group}" if group != FIXED else made[-1] if made else
            longest.glue_up or f"the part with {longest.name}")
    return Unit(name, _box((high[0] - low[0], high[1] - low[1], high[2] - low[2])), tuple(members))


def _box(sizes_mm: Vector) -> Sizes:
    return from_mm(sizes_mm[0]), from_mm(sizes_mm[1]), from_mm(sizes_mm[2])
