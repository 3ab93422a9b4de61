"""Shelf load: boards that things are kept on, the floor of a box or a potting shelf.

An even load over the boards' area (words use: "box" 30 lb/ft² for cushions and tools, "shelf" 125 lb/ft²
light storage); a carrier across takes half the boards' length of it. Units N, mm, N/mm².
Two supports at least, found in the contacts. Sources: ASCE 7 light storage (memory), box (judgement).
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
    return boards_carry(asked, case, evenly(asked, case, load, told, case.source(name), "people"))


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


RULE = Rule("shelf load", check, words={"use": ("shelf", "box")}, members=True)
