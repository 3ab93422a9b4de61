"""Gaps against the bounds they were given: of every spread that a template works out, wherever it stands,
and of the boards that a spread counts, measured on the blanks as placed. mm.

A board is held to a spread when a repeat counts it by that spread and it is as wide as the spread says;
between boards that follow each other without turning, the gap is what lies between their long edges.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from .. import formula
from ..errors import BadFormula, Fault
from ..formula.evaluate import Budget
from ..formula.model import Formula, Spread
from ..measure import Writer
from ..template.model import MemberRule, Template
from ..template.within import PLAIN, parts_of
from .members import repeated
from .model import Member, Piece
from .values import Values
from .vectors import dot, sub

SLACK_MM = 0.02
PARALLEL = 1 - 1e-6
STEPS = 8_000            # of work for all gaps of one piece; what is left unseen is told

Bounds = tuple[Spread, float, float]     # a spread, the least and the most gap that it was given


def gap_faults(piece: Piece, say: Writer) -> Iterator[Fault]:
    """Gaps outside their bounds, each spread and each rule of members once."""
    values = Values(piece.values, Budget(STEPS))
    try:
        yield from _spreads(piece.template, values, say)
        made_of = dict((*piece.template.fit.values, *piece.template.values))
        for rule in piece.template.members:
            if rule.repeat and values.holds(rule.when):
                counts = [tuple(counted(turn.count.tree, made_of, values, set())) for turn in rule.repeat]
                if any(counts):
                    yield from _measured(rule, counts, piece, values, say)
    except (formula.Spent, BadFormula):
        yield Fault("", "its gaps take more work to look at than one piece may ask for: name each spread in "
                        "[values]")


def _spreads(template: Template, values: Values, say: Writer) -> Iterator[Fault]:
    told: set[str] = set()
    asks = _asking(template)
    for made, names in _holding(asks, values) if asks else ():
        for spread, least, most in reached(made.tree, names):
            inside = spread.count < 2 or least - SLACK_MM <= spread.gap <= most + SLACK_MM
            if not inside and made.where not in told:
                told.add(made.where)
                yield Fault(made.where, f"the gaps come out {say.fine(spread.gap)}, outside "
                                        f"{say.fine(least)} to {say.fine(most)}: wider bounds, or a smaller "
                                        "step")


def _asking(part: Any) -> Any:
    """What of a part asks for a spread, in one walk: a formula, a part with what of it asks, or None."""
    if part.__class__ is Formula:
        return part if "spread" in part.text else None
    if part.__class__ in PLAIN:
        return None
    inner = [asks for one in parts_of(part) if (asks := _asking(one)) is not None]
    return (part, inner) if inner else None


def _holding(asks: Any, values: Values) -> Iterator[tuple[Formula, Values]]:
    """Every formula that asks for a spread and is worked out at all, with the names it may use."""
    if isinstance(asks, Formula):
        yield asks, values
        return
    part, inner = asks
    if values.holds(getattr(part, "when", None)):
        for names in repeated(part, values) if isinstance(part, MemberRule) else (values,):
            for one in inner:
                yield from _holding(one, names)


def reached(tree: Any, values: Values) -> Iterator[Bounds]:
    """Every spread that a formula's tree works out, of the branches it takes with these names."""
    if not isinstance(tree, list):
        return
    values.budget.spend()
    head, inner = tree[0], tree[1:]
    if head in ("choose", "and", "or"):
        first = formula.evaluate(tree[1], values.named, values.budget)
        if head == "choose":
            inner = [tree[1], tree[2] if first else tree[3]]
        elif bool(first) is (head == "or"):
            inner = [tree[1]]
    for one in inner:
        yield from reached(one, values)
    if tree[:2] == ["call", "spread"]:
        made = formula.evaluate(tree, values.named, values.budget)
        least, most = (formula.evaluate(one, values.named, values.budget) for one in tree[4:6])
        yield made, least, most


def _measured(rule: MemberRule, counts: Sequence[tuple[Bounds, ...]], piece: Piece, values: Values,
              say: Writer) -> Iterator[Fault]:
    made = [m for m in piece.members if m.name == rule.name]
    turns = [tuple(names.named[turn.index] for turn in rule.repeat) for names in repeated(rule, values)]
    copies = len(made) // max(len(turns), 1)
    clashing = {(clash.first, clash.second) for clash in piece.clashes}      # told as such
    for depth, bounds in enumerate(counts):
        worst: tuple[float, Fault] | None = None
        for a, b in _following(made, turns, copies, depth) if bounds else ():
            gap = None if (a.key, b.key) in clashing else _gap(a, b)
            near = min(_beyond(gap, a, one) for one in bounds) if gap is not None else 0.0
            if gap is not None and near > SLACK_MM and (worst is None or near > worst[0] + SLACK_MM):
                worst = near, Fault(rule.where, _told(a, b, gap, bounds[0], say))
        if worst:
            yield worst[1]


def counted(tree: Any, made_of: Mapping[str, Formula], values: Values, seen: set[str]) -> Iterator[Bounds]:
    """The spreads that a count comes from, through named values and what they are made of, with their
    bounds; each name once."""
    if not isinstance(tree, list):
        return
    values.budget.spend()
    if tree[0] == "name":
        name = tree[1].partition(".")[0]
        if name in made_of and name not in seen:
            seen.add(name)
            inner = made_of[name].tree
            is_spread = isinstance(values.named[name], Spread)
            yield from reached(inner, values) if is_spread else counted(inner, made_of, values, seen)
    elif tree[:2] == ["call", "spread"]:
        yield from reached(tree, values)
    else:
        for one in tree[1:]:
            yield from counted(one, made_of, values, seen)


def _following(made: Sequence[Member], turns: Sequence[tuple[float, ...]], copies: int,
               depth: int) -> Iterator[tuple[Member, Member]]:
    """Members whose index of that depth is one more than the other's, everything else alike."""
    at = {turn: k for k, turn in enumerate(turns)}
    for turn, k in at.items():
        after = at.get((*turn[:depth], turn[depth] + 1.0, *turn[depth + 1:]))
        if after is not None:
            yield from ((made[k * copies + copy], made[after * copies + copy]) for copy in range(copies))


def _gap(a: Member, b: Member) -> float | None:
    """Between the long edges of two blanks side by side; None where they lie otherwise."""
    if dot(a.frame.wide, b.frame.wide) < PARALLEL or abs(a.width_mm - b.width_mm) > SLACK_MM:
        return None
    way = sub(b.frame.origin, a.frame.origin)
    across = abs(dot(way, a.frame.wide))
    beside = across >= max(abs(dot(way, a.frame.along)), abs(dot(way, a.frame.thick)))
    return across - a.width_mm if beside else None


def _beyond(gap: float, board: Member, given: Bounds) -> float:
    """How far a gap is outside what a spread was given, or came out with, for boards of its width."""
    spread, least, most = given
    if abs(board.width_mm - spread.width) > SLACK_MM:
        return 0.0
    return max(min(least, spread.gap) - gap, gap - max(most, spread.gap), 0.0)


def _told(a: Member, b: Member, gap: float, given: Bounds, say: Writer) -> str:
    left = f"leave a gap of {say.fine(gap)}" if gap > 0 else f"overlap by {say.fine(-gap)}"
    if abs(gap) < SLACK_MM:
        left = "leave no gap"
    return (f"{a.key} and {b.key} {left}, where the spread that counts them allows {say.fine(given[1])} to "
            f"{say.fine(given[2])}: mend how far apart from and to set them")


