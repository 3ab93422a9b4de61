"""Boards side by side and what carries them: the walk down from the loaded boards, member by member."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from ..finding import Finding, Level
from ..piece.model import AskedCheck, Member, Vector
from .rule import Case
from .supports import DOWN, Footing, footing, lies_along, places, supports
from .touches import UP, along, dot, reach
from .verdict import Loading, SagLimit, Verdict, judge, sag_limit, told, unsupported

# (case, pitch of the boards mm, how many) -> load cases of one board
BoardCases = Callable[[Case, float, int], list[Loading]]
# (case, carrier's length mm, pitch of the boards mm, boards edge to edge that share) -> its load cases
CarrierCases = Callable[[Case, float, float, int], list[Loading]]

_SAME_SPAN = 0.6             # a stack mate touches over this share of the length
_PARALLEL = 0.99


@dataclass(frozen=True, slots=True)
class Boards:
    """How boards of one kind are loaded."""

    board: BoardCases
    carrier: CarrierCases
    sag: str                     # "deflection" | "bulge"


def boards_carry(asked: AskedCheck, case: Case, kind: Boards, push: Vector = DOWN) -> tuple[Finding, ...]:
    """One finding for the worst loaded board of each name, one for the worst carrier of each name."""
    on = footing(case, frozenset(asked.members), push)
    boards = [case.member(key) for key in asked.members]
    limit = sag_limit(case, kind.sag)
    findings: list[Finding] = []
    verdicts: list[Verdict] = []
    carriers: list[str] = []
    judged: dict[tuple[object, ...], Verdict] = {}
    for board in boards:
        under = supports(case, board, on)
        carriers += [s.key for s in under]
        held = places(under)
        if len(held) < 2:
            findings.append(unsupported(case, asked.rule.rule, board, len(held)))
            continue
        pitch = pitch_mm(board, boards)
        like = (*_signature(board, push), round(pitch, 1), *(round(p, 1) for p in held))
        if like not in judged:
            judged[like] = judge(case, board, held, push, kind.board(case, pitch, len(boards)), limit)
        verdicts.append(judged[like])
    pitch = min((pitch_mm(b, boards) for b in boards), default=0.0)
    verdicts += _carriers(case, kind, limit, on, carriers, pitch)
    findings += [told(case, asked.rule.rule, v.member.name, v) for v in _worst_by_name(verdicts)]
    return tuple(findings)


def pitch_mm(board: Member, boards: Sequence[Member]) -> float:
    """From this board's middle to its nearest parallel neighbour's; its own width when it has none."""
    axis = board.frame.wide
    middle = dot(board.centre, axis)
    gaps = [abs(dot(other.centre, axis) - middle) for other in boards
            if other.key != board.key and abs(dot(other.frame.along, board.frame.along)) > _PARALLEL]
    return min((g for g in gaps if g > board.thickness_mm / 2), default=board.width_mm)


def _signature(member: Member, push: Vector) -> tuple[object, ...]:
    flat = abs(dot(member.frame.thick, push)) > abs(dot(member.frame.wide, push))
    return (member.name, member.timber, member.grade, flat, round(member.length_mm, 1),
            round(member.width_mm, 1), round(member.thickness_mm, 1))


def _worst_by_name(verdicts: Sequence[Verdict]) -> list[Verdict]:
    worst: dict[str, Verdict] = {}
    for v in verdicts:
        before = worst.get(v.member.name)
        if before is None or max(v.used, v.sagged) > max(before.used, before.sagged):
            worst[v.member.name] = v
    return list(worst.values())


def _carriers(case: Case, kind: Boards, limit: SagLimit, on: Footing, first: Sequence[str],
              pitch: float) -> Iterator[Verdict]:
    """Down from the boards: each carrier that is no upright and does not stand on the ground."""
    waiting, seen = list(dict.fromkeys(first)), set(on.loaded)
    judged: dict[tuple[object, ...], Verdict] = {}
    while waiting:
        member = case.member(waiting.pop(0))
        if member.key in seen or _needs_no_beam(case, member, on.push):
            continue
        seen.add(member.key)
        mates = stack(case, member)
        under = [s for s in supports(case, member, on) if s.key not in mates]
        waiting += [s.key for s in under]
        if len(places(under)) < 2 or lies_along(case, member, on):
            continue
        loadings = kind.carrier(case, member.length_mm, pitch, len(mates))
        like = (*_signature(member, on.push), len(mates), *(round(p, 1) for p in places(under)))
        if like not in judged:
            judged[like] = judge(case, member, places(under), on.push, loadings, limit)
        yield judged[like] if judged[like].level is Level.OK else _better_held(
            case, member, mates, on, loadings, limit, judged[like])


def _better_held(case: Case, member: Member, mates: frozenset[str], on: Footing, loadings: list[Loading],
                 limit: SagLimit, before: Verdict) -> Verdict:
    """The verdict with everything counted that stands even without this member."""
    rest = footing(case, on.loaded, on.push, member.key)
    held = places(s for s in supports(case, member, rest) if s.key not in mates)
    if held == places(s for s in supports(case, member, on) if s.key not in mates):
        return before
    return judge(case, member, held, on.push, loadings, limit)


def _needs_no_beam(case: Case, member: Member, push: Vector) -> bool:
    upright = abs(dot(member.frame.along, push)) > 0.7
    return upright or (push == DOWN and reach(member, UP)[0] <= case.standing_mm)


def stack(case: Case, member: Member) -> frozenset[str]:
    """The boards on edge that stand one on another with this one, itself included: they bend together."""
    found, waiting = {member.key}, [member]
    while waiting:
        board = waiting.pop()
        for touch in case.touches.get(board.key, ()):
            if touch.other in found or abs(touch.normal[2]) < 0.7:
                continue
            other = case.member(touch.other)
            low, high = along(board, touch)
            if (abs(dot(other.frame.along, board.frame.along)) > _PARALLEL
                    and abs(other.frame.wide[2]) > 0.7 and abs(board.frame.wide[2]) > 0.7
                    and high - low >= _SAME_SPAN * board.length_mm):
                found.add(other.key)
                waiting.append(other)
    return frozenset(found)


