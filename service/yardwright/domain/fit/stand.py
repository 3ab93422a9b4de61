"""How a piece stands in a space: clearances, where along the wall, how far off it, and what it blocks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ..measure import MM, Writer
from .blocked import Block, Span, Stance, blocks, free
from .model import Clearance, Envelope
from .space import FOREVER_NM, SIDES, Run, Space, Thing, interpolated, shortest
from .tape import up

MOST_STAND_OFF_NM = 150 * MM  # further off the wall than this a piece is not set to clear a thing; judgement


@dataclass(frozen=True, slots=True)
class Standing:
    """The answer for one envelope. ``blocked``: the things that leave no place or are stood too near to."""

    fits: bool
    gap_nm: int
    clearances: tuple[Clearance, ...]
    positions: tuple[Span, ...]
    blocked: tuple[Block, ...]
    spans: tuple[Block, ...]     # everything that takes room, avoided or not
    base: Span = (0, 0)          # where its left end could stand were nothing on the walls


def stand(piece: Envelope, space: Space) -> Standing:
    """Set the piece as near the back wall as air, lid and things allow, and see what is free around it."""
    space = _leant(space, piece.open_height_nm)
    tried = [_at(piece, space, gap) for gap in _gaps(piece, space)]
    return next((t for t in tried if t.positions), tried[0])


def _leant(space: Space, height_nm: int) -> Space:
    """A wall that leans in carries what is on it: out at its top, or where the piece ends below that."""
    if space.back_lean <= 0:
        return space

    def further(thing: Thing) -> Thing:
        more = _lean_in(space.back_lean, min(thing.top_nm, height_nm))
        return replace(thing, body=replace(thing.body, out_nm=thing.body.out_nm + more),
                       room=replace(thing.room, out_nm=thing.room.out_nm + more))

    return replace(space, things=tuple(further(t) if t.wall == "back" else t for t in space.things))


def _gaps(piece: Envelope, space: Space) -> list[int]:
    """Distances off the wall worth trying: the least, and what clears each solid thing on it."""
    least = least_gap(piece, space)
    solid = {t.body.out_nm + piece.open_behind_nm for t in space.things if t.wall == "back" and t.rule.solid}
    return [least, *sorted(g for g in solid if least < g <= least + MOST_STAND_OFF_NM)]


def least_gap(piece: Envelope, space: Space) -> int:
    """Air behind or the opened lid's reach, whichever is more, beyond what the wall leans in."""
    if not space.back_held:
        return piece.open_behind_nm
    return needed_behind(piece, space) + _lean_in(space.back_lean, piece.open_height_nm)


def needed_behind(piece: Envelope, space: Space) -> int:
    """Air behind at a wall, or the reach of what opens there, whichever is more."""
    return max(space.airflow_nm if space.back_held else 0, piece.open_behind_nm)


def _lean_in(lean: float, height_nm: int) -> int:
    return up(max(0.0, lean) * height_nm)


def end_room(piece: Envelope, space: Space, name: str) -> int:
    """What an end keeps from a wall: the fitting allowance; a wing's back also air and what opens there."""
    if not space.side(name).held:
        return 0
    if piece.wing != name:
        return space.allowance_nm
    return max(space.allowance_nm, space.airflow_nm, piece.open_behind_nm)


def _at(piece: Envelope, space: Space, gap_nm: int) -> Standing:
    run = _run(piece, space, gap_nm)
    ends = _shut(piece, space, gap_nm), _opened(piece, space, gap_nm)
    every = blocks(Stance(piece, gap_nm, None if run is None else run.nm), space)
    clearances = _clearances(piece, space, gap_nm, run, ends)
    roomy = all(c.clearance_nm >= c.needed_nm for c in clearances)
    if run is None:
        return Standing(roomy and space.kind != "between walls", gap_nm, clearances, (), (), every)
    base = (max(e.taken[0] + e.kept[0] for e in ends),
            run.nm - max(e.taken[1] + e.kept[1] for e in ends) - piece.length_nm)
    positions, blocked = _positions(base, every)
    return Standing(roomy and bool(positions), gap_nm, clearances, positions, blocked, every, base)


def _positions(base: Span, every: Sequence[Block]) -> tuple[tuple[Span, ...], tuple[Block, ...]]:
    """Clear of everything if it can be; else clear of all but cautions; else nowhere, and why."""
    def clear_of(*levels: str) -> tuple[Span, ...]:
        return free(base, (b for b in every if b.level in levels))

    if found := clear_of("solid", "stop", "caution"):
        return found, ()
    if found := clear_of("solid", "stop"):
        return found, _met("caution", every, found)
    return (), _met("stop" if clear_of("solid") else "solid", every, (base,))


def _met(level: str, every: Sequence[Block], places: Sequence[Span]) -> tuple[Block, ...]:
    """What would be met at one of these places, each thing told once though two parts of an L meet it."""
    met = [b for b in every if b.level == level and _touches(b, places)]
    return tuple(b for n, b in enumerate(met) if not any(b.thing is o.thing for o in met[:n]))


def _touches(block: Block, found: Sequence[Span]) -> bool:
    low, high = block.stretch
    return any(a + low < block.span[1] and b + high > block.span[0] for a, b in found if a <= b)


@dataclass(frozen=True, slots=True)
class _Ends:
    """What each end takes of the run along the wall and keeps free there, left and right."""

    taken: tuple[int, int]
    kept: tuple[int, int]
    words: str = ""

    def along(self, run: Run, length_nm: int, writer: Writer) -> Clearance:
        """Both ends together."""
        taken = sum(self.taken)
        less = f", less {writer.length(taken)} for corners and lean{self.words}" if taken else self.words
        return Clearance("along", run.nm - taken - length_nm, sum(self.kept), run.words + less)


def _shut(piece: Envelope, space: Space, gap_nm: int) -> _Ends:
    """The piece shut, with the fitting allowance at each end."""
    def taken(name: str) -> int:
        high_nm = piece.open_height_nm if piece.wing == name else piece.height_nm
        return space.side(name).into_nm(gap_nm + piece.out_nm(name), high_nm)

    left, right = SIDES
    return _Ends((taken(left), taken(right)), (end_room(piece, space, left), end_room(piece, space, right)))


def _opened(piece: Envelope, space: Space, gap_nm: int) -> _Ends:
    """What opens, taken to be as long as the piece, up and out to where it reaches: it must not touch."""
    def taken(name: str) -> int:
        return space.side(name).into_nm(gap_nm + piece.opened_out_nm(name), piece.open_height_nm)

    def kept(name: str) -> int:
        return piece.open_behind_nm if piece.wing == name and space.side(name).held else 0

    left, right = SIDES
    return _Ends((taken(left), taken(right)), (kept(left), kept(right)), ", where it opens")


def _run(piece: Envelope, space: Space, gap_nm: int) -> Run | None:
    """The shortest reading that binds the piece shut or open, brought to the back wall at the ground."""
    opened = gap_nm + max(piece.opened_out_nm(name) for name in SIDES)
    reach = ((piece.height_nm, gap_nm + piece.whole_depth_nm), (piece.open_height_nm, opened))
    found = []
    for high, out in reach:
        binding = interpolated(space.runs, high, out)
        brought = [_at_the_wall(r, space, high, out) for r in binding]
        found.append(shortest(brought, [r for r in binding if r in space.runs]))
    return min((r for r in found if r is not None), key=lambda r: r.nm, default=None)


def _at_the_wall(run: Run, space: Space, height_nm: int, depth_nm: int) -> Run:
    """A reading taken out in the space says less or more of the back wall where corners are off square.

    Where it was not said at what height it was taken, the worse end of the piece is assumed. A reading
    beyond the piece is given no more room than one at its edge.
    """
    more = 0.0
    for side in (space.left, space.right):
        if side.held:
            high = run.height_nm if run.height_nm is not None else (height_nm if side.lean < 0 else 0)
            more += side.lean * (min(high, height_nm) if side.lean > 0 else high)
            out = run.depth_nm or 0
            more += side.opening * (min(out, depth_nm) if side.opening > 0 else out)
    return Run(run.nm - up(-more), run.height_nm, run.depth_nm, run.words)


def _clearances(piece: Envelope, space: Space, gap_nm: int, run: Run | None,
                ends: tuple[_Ends, _Ends]) -> tuple[Clearance, ...]:
    found = []
    if run is not None:
        both = [e.along(run, piece.length_nm, space.writer) for e in ends]
        found.append(min(both, key=lambda c: c.clearance_nm - c.needed_nm))
    depths = interpolated(space.depths, piece.height_nm, FOREVER_NM)
    if depths:
        depth = min(depths, key=lambda r: r.nm)
        needed = max(piece.open_front_nm, 0 if space.kind == "between walls" else piece.use_front_nm,
                     space.walkway_nm)
        found.append(Clearance("front", depth.nm - gap_nm - piece.depth_nm, needed, depth.words))
    found += _of_the_wing(piece, space, gap_nm, run, sum(ends[0].taken))
    if space.back_held:
        lean = _lean_in(space.back_lean, piece.open_height_nm)
        words = "back wall" + (f", which leans in {space.writer.length(lean)}" if lean else "")
        found.append(Clearance("behind", gap_nm - lean, needed_behind(piece, space), words))
    if space.under is not None:
        found.append(Clearance("above", space.under.nm - piece.open_height_nm, 0, space.under.words))
    return tuple(found)


def _of_the_wing(piece: Envelope, space: Space, gap_nm: int, run: Run | None,
                 taken_nm: int) -> Iterator[Clearance]:
    """Beyond the end of an L's wing, and across to the wall that stands opposite it."""
    if piece.wing == "none":
        return
    reach = gap_nm + piece.wing_length_nm
    ends = [Clearance("wing", r.nm - reach, space.walkway_nm, r.words)
            for r in interpolated(space.depths, piece.height_nm, FOREVER_NM)]
    ends += [Clearance("wing", r.nm - reach, 0, r.words)
             for r in interpolated(space.side(piece.wing).runs, piece.height_nm, FOREVER_NM)]
    if ends:
        yield min(ends, key=lambda c: c.clearance_nm - c.needed_nm)
    if run is not None and space.side("right" if piece.wing == "left" else "left").held:
        free_nm = run.nm - taken_nm - end_room(piece, space, piece.wing) - piece.wing_depth_nm
        yield Clearance("across", free_nm, piece.open_front_nm, run.words)
