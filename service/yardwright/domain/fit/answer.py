"""The whole answer to "does it fit here": sizes, places, the way in, and findings in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..finding import Finding, Level
from ..measure import MM, SIXTEENTH, Writer, round_to
from ..shop import Shop
from ..site import Site
from ..template.model import Template
from .access import way_in
from .blocked import Block
from .envelope import envelope
from .model import Clearance, Envelope, Fit
from .readings import site_findings
from .scribing import in_its_corner, wedges
from .search import best, largest
from .space import Space, cornered, space
from .stand import Standing, least_gap, stand
from .tape import SOURCE

RULE = "fit"
_WHERE = {"along": "between the ends", "front": "in front", "behind": "behind", "above": "above",
          "wing": "beyond its wing", "across": "across from its wing"}


def fit(template: Template, dimensions_nm: Mapping[str, int], choices: Mapping[str, str], site: Site,
        shop: Shop, units: str, sized: bool = True) -> Fit:
    """How the piece fits the measured space, every reading at its worst. Lengths in nm.

    ``sized``: the largest of each size and the best set are looked for too.

    Clearances are what is left after the tape's uncertainty, off-square corners and leaning walls;
    ``needed`` adds the shop's fitting allowance at each held end, air behind, a lid's or door's
    swing and the walkway. Source of the uncertainty: EU tape classes; the rest geometry.
    """
    writer = Writer(units)
    piece = envelope(template, dimensions_nm, choices)
    measured = space(cornered(site, piece.wing), shop, writer)
    standing = stand(piece, measured)
    most = largest(template, dimensions_nm, choices, measured, units) if sized else {}
    lesser = best(template, dimensions_nm, choices, measured, units) if sized else None
    mend = _mend(template, dimensions_nm, most, lesser, writer)
    findings = (*_misfits(piece, standing, mend, writer), *_blocked(piece, standing, writer),
                *_not_checked(piece, measured, writer), *_notes(piece, measured, standing, writer),
                *wedges(piece, measured, standing, writer), *in_its_corner(piece, measured, standing, writer),
                *way_in(piece, site.access, writer))
    if standing.fits and not any(f.level in (Level.STOP, Level.NOT_CHECKED) for f in findings):
        findings = (_fits(standing, writer), *findings)
    return Fit(standing.fits, standing.clearances, standing.positions, most, lesser, measured.uncertainty_nm,
               findings, site_findings(site, shop, writer))


def _fits(standing: Standing, writer: Writer) -> Finding:
    said = "; ".join(f"{writer.length(c.clearance_nm)} {_WHERE[c.side]} ({writer.length(c.needed_nm)} needed)"
                     for c in standing.clearances)
    detail = f"Free around it: {said}." if said else "Nothing measured stands in its way."
    return Finding(RULE, Level.OK, "There is room for it", detail, source=SOURCE)


def _mend(template: Template, asked_nm: Mapping[str, int], most: Mapping[str, int],
          lesser: Mapping[str, int] | None, writer: Writer) -> str:
    """What would fit: one size made smaller where that is enough, else the best set."""
    label = {d.name: d.label.lower() for d in template.dimensions}
    one = [f"the {label[n]} {writer.length(nm)} or less" for n, nm in most.items() if 0 < nm < asked_nm[n]]
    if one:
        return f"Make {', or '.join(one)}."
    if lesser:
        return f"These fit: {', '.join(f'{label[n]} {writer.length(nm)}' for n, nm in lesser.items())}."
    return "Choose another piece or another place."


def _misfits(piece: Envelope, standing: Standing, mend: str, writer: Writer) -> Iterator[Finding]:
    for c in standing.clearances:
        if c.clearance_nm >= c.needed_nm:
            continue
        soft = {"front": piece.open_front_nm, "wing": 0}       # short of more than this is a caution only
        hard = c.clearance_nm < soft.get(c.side, c.needed_nm)
        yield Finding(RULE, Level.STOP if hard else Level.CAUTION, _title(c, hard),
                      f"{_left(c, writer)} {_WHERE[c.side]}{_wanted(c, writer)}. "
                      f"Binding: {c.binding}.", _at_most(c, writer), _at_least(c, writer), SOURCE, mend,
                      f"{c.binding}, the tape at its worst, less the piece: {_at_most(c, writer)} < "
                      f"{_at_least(c, writer)} for fitting, air, swing and walking")


def _left(c: Clearance, writer: Writer) -> str:
    said = _at_most(c, writer)
    return f"{said} is left" if c.clearance_nm >= 0 else f"It is {said.removeprefix('-')} too big"


def _wanted(c: Clearance, writer: Writer) -> str:
    return f", {_at_least(c, writer)} is needed" if c.needed_nm else ""


def _at_most(c: Clearance, writer: Writer) -> str:
    """Rounded down, so that a shortage never reads as enough."""
    return writer.length(round_to(c.clearance_nm, MM if writer.units == "mm" else SIXTEENTH, "down"))


def _at_least(c: Clearance, writer: Writer) -> str:
    return writer.length(round_to(c.needed_nm, MM if writer.units == "mm" else SIXTEENTH, "up"))


def _title(c: Clearance, hard: bool) -> str:
    if c.side in ("front", "across") and c.clearance_nm >= 0 and hard:
        return "Its lid or doors cannot open to the front"
    if not hard:
        return "Little room to walk " + ("past its wing" if c.side == "wing" else "or sit in front")
    return {"along": "It is too long for the space", "front": "It is too deep for the space",
            "wing": "Its wing is too long for the space",
            "above": "It is too high, shut or open"}.get(c.side, "It does not fit")


def _blocked(piece: Envelope, standing: Standing, writer: Writer) -> Iterator[Finding]:
    """Things that leave no place for the piece, or that it would stand too near to."""
    for b in standing.blocked:
        rule = b.thing.rule
        source = f"{rule.source}; {rule.status}" if rule.source else "geometry"
        taken = f"{_along(b, writer)} is taken"
        if b.level == "solid":
            yield Finding(RULE, Level.STOP, f"{b.thing.label} is in the way",
                          f"{b.thing.label}: {taken}, and no place is left.",
                          f"{_along(b, writer)}, {writer.length(b.thing.body.out_nm)} out",
                          f"{writer.length(piece.length_nm)} free in one stretch", "geometry",
                          "Choose a smaller piece or another place.",
                          f"{writer.length(piece.length_nm)} of piece finds no stretch beside "
                          f"{_along(b, writer)}")
        else:
            yield Finding("keep clear", Level(b.level), f"{b.thing.label}: too near",
                          f"{taken[0].upper()}{taken[1:]} by the room it needs. {rule.advice}",
                          "the piece stands in it", _room(b, writer), source,
                          "Move or shorten the piece. Local rules and the utility come first.",
                          f"{writer.length(piece.length_nm)} of piece meets {_along(b, writer)}: the thing "
                          "and the room it needs")


def _room(b: Block, writer: Writer) -> str:
    rule = b.thing.rule
    parts = (("each side", rule.sides_nm), ("in front", rule.front_nm), ("above", rule.above_nm),
             ("below", rule.below_nm))
    return ", ".join(f"{writer.length(nm)} {word}" for word, nm in parts if nm) or "nothing before it"


def _along(b: Block, writer: Writer) -> str:
    if b.thing.wall != "back":
        return f"room by the {b.thing.wall} wall"
    return f"{writer.length(max(0, b.span[0]))} to {writer.length(b.span[1])} along the wall"


def _not_checked(piece: Envelope, measured: Space, writer: Writer) -> Iterator[Finding]:
    """What was not measured is said, never taken for fitting."""
    if not measured.runs and measured.kind != "open":
        yield _missing("Length of the wall", "No reading of the back wall's run was given, so the length "
                       "is not checked.", "Measure the run at the height and depth of the piece.")
    heights = [r.height_nm for r in measured.runs]
    tops = [h for h in heights if h is not None]
    if measured.held and tops and len(tops) == len(heights) and max(tops) < piece.height_nm - 150 * MM:
        yield _missing("Width at the top",
                       f"The highest reading was taken {writer.length(max(tops))} up, the piece is "
                       f"{writer.length(piece.height_nm)} high.", "Measure the run again up there.")
    deep = {r.depth_nm or 0 for r in measured.runs}
    for name, side in (("left", measured.left), ("right", measured.right)):
        if side.held and not side.measured:
            even = " Readings further out bind, but both sides may slant one way." if len(deep) > 1 else ""
            yield _missing(f"The {name} corner", f"The {name} corner is taken as square.{even}",
                           f"Measure the {name} corner: along, out and across.")
    if not measured.depths and measured.kind != "open":
        yield _missing("Room in front", "How far it is free out from the wall was not measured.",
                       "Measure the depth of the space.")
    elif measured.kind == "between walls" and not measured.walkway_nm and piece.use_front_nm:
        yield _missing("Room in front",
                       f"To use it, {writer.length(piece.use_front_nm)} in front of the piece should stay "
                       "free; only the depth of the space itself was measured.",
                       "Look whether people can pass.")
    at_wing = measured.side(piece.wing)
    if measured.kind == "corner" and piece.wing != "none" and at_wing.held and not at_wing.runs:
        yield _missing(f"Length of the {piece.wing} wall", f"How far the {piece.wing} wall reaches out was "
                       "not measured, so it is not known whether the whole wing stands against it.",
                       f"Measure the run of the {piece.wing} wall.")
    if not measured.runs:
        for thing in measured.things:
            yield _missing(thing.label, f"Where the piece stands to the {thing.label} is not known. "
                           f"{thing.rule.advice}", "Measure the run of the wall.")


def _missing(what: str, detail: str, mend: str) -> Finding:
    return Finding(RULE, Level.NOT_CHECKED, f"{what}: not checked", detail, mend=mend)


def _notes(piece: Envelope, measured: Space, standing: Standing, writer: Writer) -> Iterator[Finding]:
    least = least_gap(piece, measured)
    if standing.gap_nm > least:
        off = writer.length(standing.gap_nm)
        yield Finding(RULE, Level.NOTE, "It stands off the wall",
                      f"To clear what sticks out of the wall the piece stands {off} off it.",
                      off, writer.length(least), "geometry",
                      working=f"what sticks out of the wall {off} > air behind {writer.length(least)}")
    if standing.positions and standing.spans:
        places = "; ".join(writer.length(a) if a == b else f"{writer.length(a)} to {writer.length(b)}"
                           for a, b in standing.positions)
        named = ", ".join(dict.fromkeys(b.thing.label.lower() for b in standing.spans))
        yield Finding(RULE, Level.NOTE, "Where it may stand",
                      f"Its left end {places} from the left end of the wall, because of: {named}.",
                      source="geometry")
