"""Trying a template over its whole range: corners and many points, each built and looked at as a maker would.

At every point: it builds; no solids share room, a lid open or shut; joints' members touch and nothing hangs
loose; overall size as asked to the working step and never larger; the fit's envelope holds the piece, open
too; no gap of a spread outside its bounds; no part below what the saw can work or beyond the longest stock.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from math import prod
from random import Random

from .. import formula
from ..errors import Fault, Refused
from ..measure import Writer, to_mm
from ..shop import Shop
from ..template.model import Choice, Template
from ..template.table import meant
from .build import build
from .joints import loose, untouched
from .model import Piece
from .offer import offered
from .stock import pick_stock

SLACK_MM = 0.02          # arcs are chords; floating sums
Look = Callable[[Piece, Shop], Iterable[Fault]]
MOST_CORNERS = 256       # of the sizes' ranges
MOST_COMBINATIONS = 6    # of choices tried at each corner, unless asked otherwise


@dataclass(frozen=True, slots=True)
class Point:
    """One set of sizes and choices that was tried."""

    dimensions_nm: Mapping[str, int]
    choices: Mapping[str, str]
    units: str

    def words(self) -> str:
        writer = Writer(self.units)
        sizes = ", ".join(f"{name} {writer.length(nm)}" for name, nm in self.dimensions_nm.items())
        return "; ".join(filter(None, (sizes, ", ".join(f"{k} {v}" for k, v in self.choices.items()))))


@dataclass(frozen=True, slots=True)
class TrialFault:
    """What is wrong at one point."""

    point: Point
    detail: str


@dataclass(frozen=True, slots=True)
class TrialReport:
    """How a template did. ``unsold`` timbers are allowed by the template, but no board of them is sold."""

    template: str
    points: int
    faults: tuple[TrialFault, ...]
    unsold: tuple[str, ...]
    lacking: tuple[Fault, ...] = ()      # names nobody knows and sections nobody sells, whatever the size

    @property
    def good(self) -> bool:
        return not self.faults and not self.lacking and self.points > 0


def trial(template: Template, shop: Shop, points: int, seed: int = 1,
          at_corners: int = MOST_COMBINATIONS, also: Look = lambda piece, shop: ()) -> TrialReport:
    """Every corner of the ranges and ``points`` random sets between, with choices and timbers mixed in:
    at each corner ``at_corners`` combinations of choices. ``also`` looks at each built piece with what this
    part of the house does not know: boards, goods, times.

    Deterministic for a seed. Never raises for a fault of the template: it is reported with its point.
    """
    timbers, unsold = _timbers(template, shop)
    random = Random(seed)
    tried = [*_corners(template, shop, timbers, random, at_corners),
             *_between(template, shop, timbers, points, random)]
    faults = [TrialFault(p, detail) for p in tried for detail in _tried(template, shop, p, also)]
    return TrialReport(template.id, len(tried) if timbers else 0, tuple(faults), unsold,
                       tuple(_lacking(template, shop, timbers)))


def _lacking(template: Template, shop: Shop, sold: Sequence[str]) -> Iterator[Fault]:
    market = shop.market
    known_woods = [timber for timber in template.timbers or (template.default_timber,)
                   if timber in market.timbers]
    for key, names, known in (("timbers", template.timbers, market.timbers),
                              ("finishes", template.finishes, {"none", *market.finishes})):
        for at, name in enumerate(names):
            if name not in known:
                yield Fault(f"/{key}/{at}", f"nobody knows '{name}' here{meant(name, known)}")
    for role in template.roles if known_woods and not sold else ():
        try:
            pick_stock(replace(template, roles=(role,)), known_woods[0], market)
        except Refused as refused:
            entry = "sections" if role.material == "board" else "material"
            yield from (Fault(f"/{role.material}s/{role.name}/{entry}", f.detail) for f in refused.faults)


def _timbers(template: Template, shop: Shop) -> tuple[list[str], tuple[str, ...]]:
    sold, unsold = [], []
    for timber in template.timbers or sorted({b.timber for b in shop.market.boards}):
        try:
            pick_stock(template, timber, shop.market)
        except Refused:
            unsold.append(timber)
        else:
            sold.append(timber)
    return sold, tuple(unsold)


def _corners(template: Template, shop: Shop, timbers: list[str], random: Random,
             at_each: int) -> Iterator[Point]:
    if not timbers:
        return
    choices = offered(template, shop)[:-2]
    many = prod(len(c.options) for c in choices)
    corners = 2 ** len(template.dimensions)
    few = range(corners) if corners <= MOST_CORNERS else random.sample(range(corners), MOST_CORNERS)
    for k in few:
        last = len(template.dimensions) - 1
        sizes = {d.name: d.most_nm if k >> (last - at) & 1 else d.least_nm
                 for at, d in enumerate(template.dimensions)}
        timber = timbers[k % len(timbers)]
        for number in range(many) if many <= at_each else random.sample(range(many), at_each):
            yield Point(sizes, _sold(template, timber, _combination(choices, number), shop), shop.units)


def _combination(choices: Sequence[Choice], number: int) -> dict[str, str]:
    """The combination of options with that number, the last choice turning fastest."""
    chosen: dict[str, str] = {}
    for choice in reversed(choices):
        number, which = divmod(number, len(choice.options))
        chosen[choice.name] = choice.options[which][0]
    return dict(reversed(chosen.items()))


def _sold(template: Template, timber: str, chosen: dict[str, str], shop: Shop) -> dict[str, str]:
    """The choices with the timber, heavier sections left out where they are not sold in it."""
    with suppress(Refused):
        pick_stock(template, timber, shop.market, chosen)
        return {**chosen, "timber": timber}
    sections = {role.chosen_by for role in template.roles}
    return {**{name: word for name, word in chosen.items() if name not in sections}, "timber": timber}


def _between(template: Template, shop: Shop, timbers: list[str], points: int,
             random: Random) -> Iterator[Point]:
    choices = offered(template, shop)[:-2]
    for k in range(points if timbers else 0):
        units = ("in", "mm")[k % 2]
        sizes = {}
        for d in template.dimensions:
            step = d.step_nm[units]
            first = -(-d.least_nm // step)
            last = d.most_nm // step
            sizes[d.name] = random.randint(first, last) * step if last >= first else d.least_nm
        chosen = {c.name: random.choice(c.options)[0] for c in choices}
        yield Point(sizes, _sold(template, random.choice(timbers), chosen, shop), units)


def _tried(template: Template, shop: Shop, point: Point, also: Look) -> Iterator[str]:
    try:
        piece = build(template, point.dimensions_nm, point.choices, shop, point.units)
    except Refused as trouble:
        yield from (f"{f.pointer}: {f.detail}" for f in trouble.faults)
        return
    found = list(faults_of(piece, shop))
    yield from found or (f"{f.pointer}: {f.detail}" for f in also(piece, shop))


def faults_of(piece: Piece, shop: Shop) -> Iterator[str]:
    """What is wrong with one built piece, in words: the look that a template sent with a job gets too."""
    for clash in piece.clashes:
        when = f" with the lid or door at {clash.opened_deg:.0f}°" if clash.opened_deg else ""
        yield (f"{clash.first} and {clash.second} share {clash.volume_mm3:.0f} mm3, "
               f"{clash.depth_mm:.2f} mm deep{when}")
    yield from untouched(piece.joints, piece.members)
    yield from (f"{key} is held by nothing" for key in loose(piece.members, piece.joints))
    yield from _overall(piece, shop)
    yield from _envelope(piece)
    yield from _gaps(piece)
    yield from _parts(piece, shop)


def _overall(piece: Piece, shop: Shop) -> Iterator[str]:
    """Length and depth of the solids, height from the ground, against what was asked."""
    step = to_mm(shop.saw.step_nm)
    for k, name in enumerate(("length", "depth", "height")):
        asked = formula.evaluate(piece.template.overall[name], piece.values)
        low = piece.closed.low[k] if name != "height" else min(0.0, piece.closed.low[k])
        extent = piece.closed.high[k] - low
        if extent > asked + SLACK_MM:
            yield f"the solids' {name} is {extent:.2f} mm, more than the {asked:.2f} mm asked"
        elif extent < asked - step - SLACK_MM:
            yield f"the solids' {name} is {extent:.2f} mm, short of the {asked:.2f} mm asked"
        if piece.closed.low[k] < -SLACK_MM:
            yield f"the solids begin {-piece.closed.low[k]:.2f} mm before nothing in {name}"


def _envelope(piece: Piece) -> Iterator[str]:
    """What the fit promises must hold the solids, shut and open."""
    said = {name: formula.evaluate(f, piece.values) for name, f in piece.template.fit.envelope.items()}
    wing = piece.template.fit.wing
    if wing is not None and (side := formula.evaluate(wing, piece.values)) != "none":
        yield from _notch(piece, said, side)
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
            yield f"fit.envelope.{name} is {given:.2f} mm; the solids need {least:.2f} mm"
    sideways = max(-opened.low[0], opened.high[0] - shut.high[0])
    if sideways > SLACK_MM:
        yield f"open, the piece stands {sideways:.2f} mm beyond its ends, which no fit can tell"


def _notch(piece: Piece, said: Mapping[str, float], side: str) -> Iterator[str]:
    """An L's solids keep out of the quarter that its fit says is free; lids in motion are not looked at."""
    front = said["wing_length"] - said["depth"]
    low, high = ((0.0, said["wing_depth"]) if side == "left" else
                 (said["length"] - said["wing_depth"], said["length"]))
    for m in piece.members:
        deep = max((min(front - y, max(low - x, x - high)) for x, y, _ in m.corners), default=0.0)
        if deep > SLACK_MM:
            yield (f"fit.envelope says that the place beside the wing is free; {m.key} reaches {deep:.2f} mm "
                   "into it")


def _gaps(piece: Piece) -> Iterator[str]:
    """Every named spread's gap against the least and the most that it was given."""
    where = {name: "/values" for name, _ in piece.template.values} | {
        name: "/fit/values" for name, _ in piece.template.fit.values}
    for name, made in (*piece.template.fit.values, *piece.template.values):
        of_spread = isinstance(made.tree, list) and made.tree[:2] == ["call", "spread"]
        if of_spread and piece.values[name].count > 1:
            least, most = (formula.evaluate(tree, piece.values) for tree in made.tree[4:6])
            gap = piece.values[name].gap
            if not least - SLACK_MM <= gap <= most + SLACK_MM:
                yield (f"{where[name]}/{name}: the gaps come out {gap:.2f} mm, outside {least:.2f} to "
                       f"{most:.2f} mm")


def _parts(piece: Piece, shop: Shop) -> Iterator[str]:
    saw = shop.saw
    picks = {p.code: p for many in pick_stock(piece.template, piece.choices["timber"], shop.market,
                                                       piece.choices).values()
             for p in many}
    least, strip = to_mm(saw.least_part_nm), to_mm(saw.least_strip_nm)
    for m in piece.members:
        if m.material == "roll":
            continue
        if m.length_mm < least - SLACK_MM or m.width_mm < strip - SLACK_MM:
            yield (f"{m.key} is {m.length_mm:.1f} x {m.width_mm:.1f} mm, too small to work: the shop's saws "
                   f"take {least:g} x {strip:g} mm and more")
        longest = min(picks[m.section].longest_mm, to_mm(saw.longest_carry_nm)) - 2 * to_mm(saw.end_trim_nm)
        if m.length_mm > longest + SLACK_MM:
            yield f"{m.key} is {m.length_mm:.0f} mm long; the longest {m.section} gives {longest:.0f} mm"
