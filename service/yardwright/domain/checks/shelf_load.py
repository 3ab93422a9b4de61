"""Shelf load: boards that things are kept on, the floor of a box or a potting shelf.

An even load over the boards' area (words use: "box" 30 lb/ft² for cushions and tools, "shelf" 125 lb/ft²
light storage, "table" 50 lb/ft² and besides somebody who sits or stands on it, 250 lbf over a square foot);
a carrier across takes half the boards' length of it. Units N, mm, N/mm². Two supports at least, found in
the contacts. Sources: ASCE 7 light storage (memory), box (judgement).
Limits of validity: even loads; a single heavy thing on a shelf or box is not judged.
"""

from __future__ import annotations

from ..finding import Finding
from ..piece.model import AskedCheck
from .boards import Boards, Carrier, boards_carry
from .rule import Case, Rule
from .verdict import Loading


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """Findings for the worst board and the worst carrier."""
    use = asked.rule.words.get("use", "shelf")
    name = f"structure.{use}_load"
    load = case.limit(name)
    told = f"{case.words.area_load(load)} all over"
    kind = evenly(asked, case, load, told, case.source(name), "people")
    return boards_carry(asked, case, _stood_on(kind) if use == "table" else kind)


def _stood_on(kind: Boards) -> Boards:
    """Somebody sits or stands on it too: 250 lbf over a square foot, on the boards that lie under it."""
    def person(case: Case, share: float, sharing: bool) -> Loading:
        whole, patch = case.limit("structure.seat_load"), case.limit("structure.seat_patch")
        return Loading(f"{share:.0%} of somebody's {case.words.force(whole)} on it",
                       case.source("structure.seat_load", "structure.seat_patch"), whole * share, patch,
                       sharing=sharing, sags=False)

    def board(case: Case, pitch_mm: float, boards: int) -> list[Loading]:
        """The even load, then the person."""
        share = min(1.0, pitch_mm / case.limit("structure.seat_patch"))
        return [*kind.board(case, pitch_mm, boards), person(case, share, boards >= 3 and share < 1.0)]

    def carrier(case: Case, under: Carrier) -> list[Loading]:
        """The even load's share, then the person, shared by boards that bend together."""
        return [*(kind.carrier(case, under) if kind.carrier else ()),
                person(case, 1.0 / under.mates, under.sharing)]

    return Boards(board, carrier, kind.sag)


def evenly(asked: AskedCheck, case: Case, load_n_mm2: float, told: str, source: str, duration: str) -> Boards:
    """Boards under an even area load; carriers take half of the longest board's length."""
    longest = max((case.member(k).length_mm for k in asked.members), default=0.0)

    def board(_: Case, pitch_mm: float, boards: int) -> list[Loading]:
        """The area load on a board's pitch."""
        return [Loading(told, source, line=load_n_mm2 * pitch_mm, duration=duration)]

    def carrier(_: Case, under: Carrier) -> list[Loading]:
        """Half of the boards across, or one board's share of those along."""
        if under.across:
            return [Loading(f"half of {told}", source, line=load_n_mm2 * longest / 2 / under.mates,
                            duration=duration)]
        return [Loading(f"a board's share of {told}", source, line=load_n_mm2 * under.pitch_mm / under.mates,
                        duration=duration)]

    return Boards(board, carrier, "deflection")


RULE = Rule("shelf load", check, words={"use": ("shelf", "table", "box")}, members=True)
