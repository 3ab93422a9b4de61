"""Joints and glue-ups as found: which contacts each joint holds, which strips make which blank."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import islice
from math import ceil

from ..errors import BadTemplate, Fault
from ..formula import Budget
from ..template.model import GlueUp, Joint
from ..template.rules import matching
from .model import Contact, MadeJoint, Member
from .values import Values
from .vectors import dot

MOST_EACH = 100          # fasteners in one contact
LEAST_SPACING_MM = 1.0
SHORT_MM = 50.8          # a shorter run takes one fastener
NARROW_MM = 12.7         # a narrower strip takes none
ADJOIN_MM = 1.0          # faces of one housing meet in an edge
TURNED = 0.9             # cosine: faces this far from parallel
MOST_TOLD = 100          # members that touch nothing; a piece with more is no nearer to being built
MOST_NAMED = 8           # names told of one joint


def named(members: Sequence[Member], patterns: Sequence[str],
          budget: Budget | None = None) -> tuple[str, ...]:
    """Keys of the members that a list of patterns names."""
    if budget is not None:
        budget.spend(4 + len(members) // 4 + len(patterns) // 2)
    called = matching(patterns)
    return tuple([m.key for m in members if called(m.name)])


def make_joints(rules: Sequence[Joint], members: Sequence[Member], contacts: Sequence[Contact],
                values: Values) -> tuple[MadeJoint, ...]:
    """Each joint with the contacts it holds and its fasteners: per contact, or by spacing along it."""
    return tuple(_made(rule, members, contacts, values) for rule in rules if values.holds(rule.when))


def _made(rule: Joint, members: Sequence[Member], contacts: Sequence[Contact], values: Values) -> MadeJoint:
    budget = values.budget
    budget.spend(6 + len(contacts) // 4 + len(members) // 3)
    of, to = set(named(members, rule.of, budget)), set(named(members, rule.to, budget))
    held = tuple(c for c in contacts
                 if (c.first in of and c.second in to) or (c.first in to and c.second in of))
    budget.spend(4 * len(held))
    taking = _taking(held, budget) if rule.fasten not in ("none", "glue") else (True,) * len(held)
    counts: tuple[int, ...] = ()
    if rule.per_contact is not None:
        each = values.of(rule.per_contact)
        if not 0 <= each <= MOST_EACH:
            raise BadTemplate(Fault(f"{rule.where}/per_contact", f"{rule.name}: comes out as {each:g}"))
        counts = tuple(round(each) * takes for takes in taking)
    elif rule.spacing is not None:
        spacing = values.of(rule.spacing)
        if spacing < LEAST_SPACING_MM:
            raise BadTemplate(Fault(f"{rule.where}/spacing", f"{rule.name}: comes out as {spacing:g} mm"))
        counts = tuple((ceil(_run(c) / spacing - 1e-9) + (_run(c) >= SHORT_MM)) * takes
                       for c, takes in zip(held, taking, strict=True))
    return MadeJoint(rule, held, sum(counts), counts)


def _taking(held: Sequence[Contact], budget: Budget | None = None) -> tuple[bool, ...]:
    """Which contacts take fasteners: of the faces of one housing or lap the largest alone, and no strip too
    narrow for a screw where its member is held elsewhere."""
    pairs: dict[tuple[str, str], list[Contact]] = {}
    wide: set[str] = set()
    for c in held:
        pairs.setdefault((c.first, c.second), []).append(c)
        if _narrow(c) >= NARROW_MM:
            wide |= {c.first, c.second}

    if budget is not None:
        budget.spend(sum(len(p) ** 2 for p in pairs.values()) // 8)

    def largest(c: Contact) -> bool:
        beside = [o for o in pairs[c.first, c.second]
                  if o is c or (abs(dot(o.normal, c.normal)) < TURNED and _adjoin(o, c))]
        return max(beside, key=lambda o: o.area_mm2) is c

    return tuple(largest(c) and (_narrow(c) >= NARROW_MM or not wide & {c.first, c.second})
                 for c in held)


def _adjoin(a: Contact, b: Contact) -> bool:
    return all(a.low[k] <= b.high[k] + ADJOIN_MM and b.low[k] <= a.high[k] + ADJOIN_MM for k in range(3))


def _narrow(contact: Contact) -> float:
    """The narrow way of the patch, taken from its area: boxes of turned patches are too large."""
    return contact.area_mm2 / max(_run(contact), 1e-9)


def _run(contact: Contact) -> float:
    return max(b - a for a, b in zip(contact.low, contact.high, strict=True))


def shares(rules: Sequence[Joint], members: Sequence[Member], values: Values) -> dict[tuple[str, str], float]:
    """How deep (mm) each pair of members may share room, where a joint says so."""
    allowed: dict[tuple[str, str], float] = {}
    for rule in rules:
        if rule.may_share is not None and values.holds(rule.when):
            depth = values.of(rule.may_share)
            budget = values.budget
            of, to = named(members, rule.of, budget), named(members, rule.to, budget)
            budget.spend(len(of) * len(to) // 2)
            for a in of:
                for b in to:
                    allowed[a, b] = max(depth, allowed.get((a, b), 0.0))
    return allowed


def glued(members: Sequence[Member], rules: Sequence[GlueUp], contacts: Sequence[Contact],
          budget: Budget) -> tuple[Member, ...]:
    """The members, strips numbered by the glue-up they go into: two strips or more that touch."""
    number: dict[str, tuple[str, int]] = {}
    links = [(c.first, c.second) for c in contacts] if rules else []
    for rule in rules:
        strips = named(members, rule.members, budget)
        among = set(strips)
        budget.spend(2 + len(links) // 6 + len(strips) // 3)
        own = [link for link in links if link[0] in among and link[1] in among]
        budget.spend(len(own))
        blanks = (together for together in components(strips, own) if len(together) > 1)
        for no, together in enumerate(blanks, 1):
            number |= dict.fromkeys(together, (rule.name, no))
    return tuple(replace(m, glue_up=number[m.key][0], glue_up_no=number[m.key][1]) if m.key in number else m
                 for m in members)


def components(keys: Sequence[str], links: Iterable[tuple[str, str]]) -> list[list[str]]:
    """Groups of keys that hang together by links, in the keys' order."""
    root: dict[str, str] = {k: k for k in keys}

    def top(key: str) -> str:
        while (above := root[key]) != key:
            root[key] = root[above]
            key = above
        return key

    for a, b in links:
        if a in root and b in root:
            root[top(b)] = top(a)
    together: dict[str, list[str]] = {}
    for key in keys:
        together.setdefault(top(key), []).append(key)
    return list(together.values())


def untouched(made: Iterable[MadeJoint], members: Sequence[Member]) -> tuple[str, ...]:
    """Joints whose members do not meet, in words: ``Cleats to panels: Cleat 2 touches none of ...``."""
    found = islice(not_met(made, members), MOST_TOLD)
    return tuple(f"{rule.name}: {key} touches none of {asked_to(rule)}" for rule, key in found)


def not_met(made: Iterable[MadeJoint], members: Sequence[Member]) -> Iterator[tuple[Joint, str]]:
    """Each joint with every member of its ``of`` that touches none of its ``to``."""
    for joint in made:
        held = {c.first for c in joint.contacts} | {c.second for c in joint.contacts}
        yield from ((joint.rule, key) for key in named(members, joint.rule.of) if key not in held)


def asked_to(rule: Joint) -> str:
    """What a joint holds its members to, in words: the first names of many."""
    return ", ".join([*rule.to[:MOST_NAMED], *(["..."] if len(rule.to) > MOST_NAMED else [])])


def loose(members: Sequence[Member], made: Iterable[MadeJoint]) -> tuple[tuple[str, ...], ...]:
    """Members from which no joint or glue-up leads to the rest of their group; those that hold together as
    one."""
    links = [(c.first, c.second) for joint in made for c in joint.contacts]
    strips: Mapping[tuple[str, int], list[str]] = _strips(members)
    links += [(keys[0], key) for keys in strips.values() for key in keys[1:]]
    found: list[tuple[str, ...]] = []
    for group in dict.fromkeys(m.group for m in members):
        parts = components([m.key for m in members if m.group == group], links)
        found += [tuple(part) for part in sorted(parts, key=len)[:-1]]
    return tuple(found)


def _strips(members: Iterable[Member]) -> dict[tuple[str, int], list[str]]:
    found: dict[tuple[str, int], list[str]] = {}
    for m in members:
        if m.glue_up:
            found.setdefault((m.glue_up, m.glue_up_no), []).append(m.key)
    return found
