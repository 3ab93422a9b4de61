"""The way in told: how the whole passes, which parts go in otherwise, and what that leaves for the site."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from ..finding import Finding, Level
from ..measure import Writer
from ..piece.model import Piece
from ..site import Access
from .access import ROOM_NM, RULE, SOURCE, in_words, opening_in_words, place_finding
from .envelope import envelope
from .in_parts import Brought, Split, Unit, brought
from .model import Fit

MOST_NAMED = 6                   # kinds of parts named one by one
MOST_QUOTED = 110                # letters of a step
PRICED = "The time for it is in the price where delivery or installing is."


def with_way_in(found: Fit, piece: Piece, access: Sequence[Access], writer: Writer) -> Fit:
    """The fit with what the solids say of the way in, in place of what its envelope alone said."""
    if not access:
        return found
    others = tuple(f for f in found.findings if f.rule != RULE)
    return replace(found, findings=(*others, *carrying(piece, access, writer)))


def carrying(piece: Piece, access: Sequence[Access], writer: Writer) -> tuple[Finding, ...]:
    """A finding for each narrow place; then, where the whole does not pass, the parts that do, or a stop."""
    how = brought(piece, access)
    shape = envelope(piece.template, piece.dimensions_nm, piece.choices)
    places = [place_finding(shape, place, way, writer) for place, way in zip(access, how.ways, strict=True)]
    if how.split is not None and how.split.planned and how.stuck is None:
        places = [f for f in places if f.level is Level.OK]
    return (*places, *_parted(how, writer))


def in_parts(piece: Piece, access: Sequence[Access], writer: Writer) -> tuple[Finding, ...]:
    """A note with the parts that pass every narrow place; a stop where even a loose board does not, *not
    checked* where that hangs on a height nobody measured.

    Nothing where the whole piece passes. Source: geometry of the piece and of the places measured.
    """
    return tuple(_parted(brought(piece, access), writer)) if access else ()


def _parted(how: Brought, writer: Writer) -> Iterator[Finding]:
    if how.split is not None and how.stuck is not None:
        yield _boards_may_pass(how.split, *how.stuck, writer)
    elif how.split is not None:
        yield _parts_pass(how.split, writer)
    elif how.stuck is not None:
        yield _nothing_passes(*how.stuck, writer)


def _parts_pass(split: Split, writer: Writer) -> Finding:
    big = max(split.units, key=lambda u: sorted(u.sizes)[1] * sorted(u.sizes)[2])
    count = f"{len(split.units)} parts" if len(split.units) != 1 else "1 part"
    fasteners = sum(split.fasteners.values())
    driven = f", {fasteners} fasteners" if fasteners else ""
    return Finding(RULE, Level.NOTE, "It goes in in parts",
                   f"{split.words}, {count}: {_named(split.units, writer)}. "
                   f"Left to do on site: {left_in_words(split)}{driven}. {PRICED}",
                   in_words(big.sizes, writer), "the narrow places measured", SOURCE,
                   "" if split.planned else "Find a wider way in, or reckon with the work on site.",
                   f"bulkiest of {count}: {in_words(big.sizes, writer)}, + {writer.length(ROOM_NM)} each way")


def _boards_may_pass(split: Split, unit: Unit, place: Access, writer: Writer) -> Finding:
    size, opening = in_words(unit.sizes, writer), opening_in_words(place, writer)
    high = writer.length(max(unit.sizes) + ROOM_NM)
    return Finding(RULE, Level.NOT_CHECKED, "Whether its boards go in: not checked",
                   f"{unit.name[0].upper()}{unit.name[1:]} is {size}; the {place.kind} is {opening} and its "
                   "height was not measured. Lying it does not pass; a board so thin can be tilted or stood "
                   f"on end where nothing is above. {split.words}; left to do on site: "
                   f"{left_in_words(split)}. {PRICED}",
                   size, opening, SOURCE, f"Measure the height there: {high} does for any tilt.",
                   f"lying: {size} + {writer.length(ROOM_NM)} each way against {opening}; tilted: not known")


def _named(units: Sequence[Unit], writer: Writer) -> str:
    """``the main box 25 in x 34 in x 72 in; 2 x the end frame ...; 12 loose boards, the longest 72 in``."""
    built = [u for u in units if not u.loose]
    loose = [u for u in units if u.loose]
    groups = Counter((u.name, in_words(u.sizes, writer)) for u in
                     sorted(built, key=lambda u: -u.sizes[0] * u.sizes[1] * u.sizes[2]))
    said = [f"{n} x {name} {size}" if n > 1 else f"{name} {size}"
            for (name, size), n in list(groups.items())[:MOST_NAMED]]
    if more := sum(list(groups.values())[MOST_NAMED:]):
        said.append(f"{more} more built-up parts")
    if loose:
        longest = writer.length(max(max(u.sizes) for u in loose))
        boards = "1 loose board" if len(loose) == 1 else f"{len(loose)} loose boards"
        said.append(f"{boards}{', the longest' if len(loose) > 1 else ','} {longest}")
    return "; ".join(said)


def left_in_words(split: Split) -> str:
    """The steps left: the only one, or how many and the first of them."""
    first = split.left[0] if len(split.left[0]) <= MOST_QUOTED else (
        split.left[0][:MOST_QUOTED].rsplit(" ", 1)[0] + " …")
    if len(split.left) == 1:
        return first if not split.left[0].endswith(".") else f"“{first}”"
    return f"the last {len(split.left)} steps of its assembly, the first “{first}”"


def _nothing_passes(unit: Unit, place: Access, writer: Writer) -> Finding:
    size, opening = in_words(unit.sizes, writer), opening_in_words(place, writer)
    return Finding(RULE, Level.STOP, "It cannot be brought in, even in parts",
                   f"{unit.name[0].upper()}{unit.name[1:]} is {size}; the {place.kind} is {opening}.", size,
                   opening, SOURCE, "Find another way in, or choose a smaller piece.",
                   f"part that comes no further apart: {size} + {writer.length(ROOM_NM)} each way against "
                   f"{opening}")
