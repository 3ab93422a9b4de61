"""Boards side by side and what carries them: the walk down from the loaded boards, member by member."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from ..finding import Finding, Level
from ..piece.model import AskedCheck, Member, Vector
from .edge_boards import stays_upright
from .held_up import rests
from .hinge_borne import hinge_borne, told_of_hinge
from .hung_cleats import hung_cleats
from .notches import judge_cut
from .rule import Case
from .seats import without_carriers
from .supports import DOWN, Footing, footing, lies_along, places, supports
from .touches import along, dot
from .uprights import uprights_stand
from .verdict import Loading, SagLimit, Verdict, all_strong, sag_limit, told, unsupported

# (case, pitch of the boards mm, how many) -> load cases of one board
BoardCases = Callable[[Case, float, int], list[Loading]]
CarrierCases = Callable[[Case, "Carrier"], list[Loading]]

_SAME_SPAN = 0.6             # a stack mate touches over this share of the length
_PARALLEL = 0.99
_ACROSS = 0.5


@dataclass(frozen=True, slots=True)
class Carrier:
    """A member that carries boards, as its load cases need to know it."""

    length_mm: float
    pitch_mm: float              # of the boards on it
    across: bool                 # the boards run across it (else along it)
    mates: int                   # boards on edge, one on another, that bend together
    sharing: bool                # three or more alike, near each other, under the same boards (C_r)


@dataclass(frozen=True, slots=True)
class Boards:
    """How boards of one kind are loaded; ``carrier`` None: what carries them is not judged."""

    board: BoardCases
    carrier: CarrierCases | None
    sag: str                     # "deflection" | "back" | "bulge"
    people: bool = False           # cleats that hang by screws and slender legs are looked at too


def boards_carry(asked: AskedCheck, case: Case, kind: Boards, push: Vector = DOWN) -> tuple[Finding, ...]:
    """A finding for the worst member of each name that is too weak or springy, one for all that are not."""
    return concluded(case, asked.rule.rule, *judged(asked, case, kind, push))


def concluded(case: Case, rule: str, findings: Sequence[Finding], verdicts: Sequence[Verdict]
              ) -> tuple[Finding, ...]:
    """Findings that stand already, then those that the verdicts come to."""
    worst = _worst_by_name(verdicts)
    strong = [v for v in worst if v.level is Level.OK]
    return (*findings, *(told(case, rule, v.member.name, v) for v in worst if v.level is not Level.OK),
            *([all_strong(case, rule, strong)] if strong else ()))


def judged(asked: AskedCheck, case: Case, kind: Boards, push: Vector = DOWN
           ) -> tuple[list[Finding], list[Verdict]]:
    """Findings on boards that nothing carries, and the verdicts on boards and what carries them."""
    keys = without_carriers(case, asked.members) if push == DOWN else asked.members
    on = footing(case, frozenset(keys), push)
    boards = [case.member(key) for key in keys]
    limit = sag_limit(case, kind.sag)
    findings = list(_only_carrying(case, asked, keys))
    if kind.people:
        findings += hung_cleats(case, asked.rule.rule, on)
    verdicts: list[Verdict] = []
    carriers: list[str] = []
    known: dict[tuple[object, ...], Verdict] = {}
    bare: dict[tuple[str, str], list[Member]] = {}
    for board in boards:
        under = supports(case, board, on)
        carriers += [s.key for s in under]
        held = places(under)
        if len(held) < 2:
            bare.setdefault((board.group if hinge_borne(case, board) else "", board.name), []).append(board)
            continue
        pitch = pitch_mm(board, boards)
        like = (*_signature(board, push), round(pitch, 1), *(round(p, 1) for p in held))
        if like not in known:
            known[like] = judge_cut(case, board, held, push, kind.board(case, pitch, len(boards)), limit,
                                case.limit("structure.settling"))
        verdicts.append(known[like])
    findings += [told_of_hinge(asked.rule.rule, case, alike) if group else
                 unsupported(asked.rule.rule, alike, len(places(supports(case, alike[0], on))))
                 for (group, _), alike in bare.items()]
    pitch = min((pitch_mm(b, boards) for b in boards), default=0.0)
    if kind.carrier is not None and boards:
        uprights: dict[str, Member] = {}
        verdicts += _carriers(case, kind.carrier, limit, on, carriers, pitch, boards[0], uprights)
        row = case.limit("structure.seat_line_load") * max(b.length_mm for b in boards)
        findings += stays_upright(case, asked.rule.rule, verdicts)
        findings += uprights_stand(case, asked.rule.rule, uprights.values(), row) if kind.people else ()
    return findings, verdicts


def _only_carrying(case: Case, asked: AskedCheck, boards: Sequence[str]) -> Iterator[Finding]:
    """A note on members that are named as boards and that the boards named with them lie on."""
    names = dict.fromkeys(case.member(key).name for key in asked.members if key not in boards)
    if names:
        told = ", ".join(names)
        yield Finding(asked.rule.rule, Level.NOTE, f"{told}: judged as what carries the boards",
                      f"The check {asked.rule.rule} names {told} among its boards; other boards of it lie on "
                      "them, so they were judged as what carries these.", source="geometry of the piece",
                      mend=f"Name only the boards in the check {asked.rule.rule}.", customer=False)


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
            round(member.width_mm, 1), round(member.thickness_mm, 1), round(member.volume_mm3, -2))


def _worst_by_name(verdicts: Sequence[Verdict]) -> list[Verdict]:
    worst: dict[str, Verdict] = {}
    for v in verdicts:
        before = worst.get(v.member.name)
        if before is None or max(v.used, v.sagged) > max(before.used, before.sagged):
            worst[v.member.name] = v
    return list(worst.values())


def _carriers(case: Case, cases: CarrierCases, limit: SagLimit, on: Footing, first: Sequence[str],
              pitch: float, board: Member, uprights: dict[str, Member]) -> Iterator[Verdict]:
    """Down from the boards: each carrier that is no upright (those are put aside) nor on the ground."""
    waiting, seen = list(dict.fromkeys(first)), set(on.loaded)
    known: dict[tuple[object, ...], Verdict] = {}
    while waiting:
        member = case.member(waiting.pop(0))
        if _is_upright(member, on.push):
            uprights[member.key] = member
        if member.key in seen or _needs_no_beam(case, member, on.push):
            continue
        seen.add(member.key)
        mates = stack(case, member)
        under = [s for s in supports(case, member, on) if s.key not in mates]
        waiting += [s.key for s in under]
        if len(places(under)) < 2 or lies_along(case, member, on):
            continue
        across = abs(dot(member.frame.along, board.frame.along)) < _ACROSS
        loadings = cases(case, Carrier(member.length_mm, pitch, across, len(mates), _shares(case, member)))
        like = (*_signature(member, on.push), len(mates), across, *(round(p, 1) for p in places(under)))
        if like not in known:
            first_look = judge_cut(case, member, places(under), on.push, loadings, limit)
            known[like] = first_look if first_look.level is Level.OK else _better_held(
                case, member, mates, on, loadings, limit, first_look)
        yield known[like]


def _better_held(case: Case, member: Member, mates: frozenset[str], on: Footing, loadings: list[Loading],
                 limit: SagLimit, before: Verdict) -> Verdict:
    """The verdict with everything counted that stands even without this member."""
    rest = footing(case, on.loaded, on.push, member.key)
    held = places(s for s in supports(case, member, rest) if s.key not in mates)
    if held == places(s for s in supports(case, member, on) if s.key not in mates):
        return before
    return judge_cut(case, member, held, on.push, loadings, limit)


def _shares(case: Case, member: Member) -> bool:
    """Three or more of its name, parallel, each within 24 in of the next: boards across share the load."""
    axis = max((member.frame.wide, member.frame.thick), key=lambda a: abs(a[0]) + abs(a[1]))
    alike = [m for m in case.piece.members if m.name == member.name
             and abs(dot(m.frame.along, member.frame.along)) > _PARALLEL]
    at = sorted(dot(m.centre, axis) for m in alike)
    within = case.limit("structure.repetitive_within")
    return len(at) >= 3 and all(0 < b - a <= within for a, b in pairwise(at))


def _is_upright(member: Member, push: Vector) -> bool:
    return abs(dot(member.frame.along, push)) > 0.7


def _needs_no_beam(case: Case, member: Member, push: Vector) -> bool:
    return _is_upright(member, push) or (push == DOWN and rests(case, member))


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


