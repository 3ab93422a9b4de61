"""Looking at one built piece as a maker would, whoever asks: the trial at each point, a job at its one.

No solids share room, a lid open or shut; joints' members touch and nothing hangs loose; the overall size is
what was asked (extents.py); gaps keep the bounds they were given (gaps.py); it stands on all its legs
(standing.py); no part is below what the saw can work or beyond the longest stock.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import hypot

from ..errors import Fault
from ..measure import Writer, to_mm
from ..shop import Shop
from .extents import SLACK_MM, envelope_faults, overall_faults
from .gaps import gap_faults
from .joints import asked_to, loose, named, not_met
from .model import Clash, Member, Piece
from .standing import standing_faults
from .stock import pick_stock

MOST_LISTED = 4          # keys of members that hang together
ASIDE = (("to its right", "to its left"), ("behind it", "in front of it"), ("above it", "below it"))


def faults_of(piece: Piece, shop: Shop, units: str = "") -> Iterator[Fault]:
    """What is wrong with one built piece, in the shop's units unless others are asked for; pointers into the
    template. The look that a template sent with a job gets too."""
    say = Writer(units or shop.units)
    wheres = {rule.name: rule.where for rule in piece.template.members}
    members = {m.key: m for m in piece.members}
    yield from clash_faults(piece.clashes, piece.members, wheres, say)
    yield from _not_met(piece, members, say)
    for keys in loose(piece.members, piece.joints):
        yield Fault(wheres[members[keys[0]].name], _loose(keys))
    yield from overall_faults(piece, shop, say)
    yield from envelope_faults(piece, say)
    yield from gap_faults(piece, say)
    yield from standing_faults(piece, say)
    for member, words in _parts(piece, shop, say):
        yield Fault(wheres[member.name], words)


def clash_faults(clashes: Iterable[Clash], members: Iterable[Member], wheres: Mapping[str, str],
                 say: Writer) -> Iterator[Fault]:
    """Each clash in words, at the rule of its first member; ``wheres`` by members' names."""
    names = {m.key: m.name for m in members}
    for clash in clashes:
        yield Fault(wheres[names[clash.first]], clash_words(clash, say))


def clash_words(clash: Clash, say: Writer) -> str:
    """``Lid and Back rail overlap, 1/8 in deep, with the lid or door at 35°: ...``."""
    met = f"{clash.first} and {clash.second} overlap, {say.fine(clash.depth_mm)} deep"
    if clash.opened_deg:
        return (f"{met}, with the lid or door at {clash.opened_deg:.0f}°: move the hinge line, shorten one, "
                "or let it open less")
    return f"{met}: move or shorten one, cut it away, or allow it by may_share in their joint"


def _not_met(piece: Piece, members: dict[str, Member], say: Writer) -> Iterator[Fault]:
    for rule, key in not_met(piece.joints, piece.members):
        others = [members[other] for other in named(piece.members, rule.to) if other != key]
        near = _nearest(members[key], others, say)
        yield Fault(rule.where, f"{rule.name}: {key} touches none of {asked_to(rule)}{near}: move it until "
                                "the faces meet, or take it out of the joint")


def _nearest(member: Member, others: Sequence[Member], say: Writer) -> str:
    """``; the nearest, Rail 2, is 1/4 in away, above it``, by the boxes around them; "" without others."""
    apart = [(_between(member, other), other.key) for other in others]
    if not apart:
        return ""
    way, key = min(apart, key=lambda found: hypot(*found[0]))
    k = max(range(3), key=lambda axis: abs(way[axis]))
    if abs(way[k]) < SLACK_MM:
        return f"; {key} is close by, but no two faces meet"
    return f"; the nearest, {key}, is {say.fine(abs(way[k]))} away, {ASIDE[k][way[k] < 0]}"


def _between(a: Member, b: Member) -> tuple[float, float, float]:
    """From the box around one to that around the other along each axis; 0 where they are abreast."""
    (low, high), (near, far) = a.solid.box, b.solid.box
    x, y, z = (max(near[k] - high[k], 0.0) + min(far[k] - low[k], 0.0) for k in range(3))
    return x, y, z


def _loose(keys: Sequence[str]) -> str:
    if len(keys) == 1:
        return f"{keys[0]} is held by nothing: name it in a joint or glue-up that leads to the rest"
    listed = ", ".join(keys[1:MOST_LISTED]) + (", ..." if len(keys) > MOST_LISTED else "")
    return (f"{keys[0]} holds together with {listed}, but nothing holds these to the rest: name one of them "
            "in a joint or glue-up that leads there")


def _parts(piece: Piece, shop: Shop, say: Writer) -> Iterator[tuple[Member, str]]:
    saw = shop.saw
    picks = {p.code: p for many in pick_stock(piece.template, piece.choices["timber"], shop.market,
                                              piece.choices).values() for p in many}
    least, strip = to_mm(saw.least_part_nm), to_mm(saw.least_strip_nm)
    for m in piece.members:
        if m.material == "roll":
            continue
        for size, needed, way in ((m.length_mm, least, "long"), (m.width_mm, strip, "wide")):
            if size < needed - SLACK_MM:
                yield m, (f"{m.key} is {say.fine(size)} {way}, too small to work: the shop's saws take "
                          f"{say.fine(needed)} and more")
        longest = min(picks[m.section].longest_mm, to_mm(saw.longest_carry_nm)) - 2 * to_mm(saw.end_trim_nm)
        if m.length_mm > longest + SLACK_MM:
            yield m, (f"{m.key} is {say.fine(m.length_mm)} long; the longest {m.section} gives "
                      f"{say.fine(longest)}: a lower max, or a section that is sold longer")
