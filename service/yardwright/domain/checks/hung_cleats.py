"""Cleats that hang: a cleat with nothing under it is held up by the screws from the boards above it.

Half a sitter's load pulls at each of the two places it hangs; each screw there may be pulled with
0.7 x 2850·G²·D x thread (screws.py). Units N, mm. Runs with every seat load. A caution, since a fifth of the
breaking load is asked for; the mend is to let the cleat lie on ledgers.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.model import Member
from .rule import Case, Unknown
from .screws import withdrawal
from .supports import Footing, Support, supports


def hung_cleats(case: Case, rule: str, on: Footing) -> Iterator[Finding]:
    """One caution for the worst cleat that hangs by too few screws; nothing where none hangs."""
    cleats = [case.member(key) for key in sorted(on.hanging)]
    shares = {c.key: _pull_share(case, c, supports(case, c, on)) for c in cleats}
    worst = max(cleats, key=lambda c: shares[c.key], default=None)
    if worst is not None and shares[worst.key] > 1.0:
        yield _told(case, rule, worst, shares[worst.key])


def _pull_share(case: Case, cleat: Member, held: tuple[Support, ...]) -> float:
    """Pull over what is allowed, at its weaker hanging place."""
    pulled = [s.fasteners for s in held if s.hung]
    screws = min(pulled, default=0.0)
    pull = case.limit("structure.seat_load") / 2
    return pull / (screws * one_screw(case, cleat)) if screws else float("inf")


def one_screw(case: Case, cleat: Member) -> float:
    """Allowed pull on one screw in this cleat, wet, in N."""
    timber = case.timber(cleat)
    if not timber.known("specific_gravity"):
        raise Unknown(f"{timber.name} has no specific gravity")
    dry = withdrawal(timber.value("specific_gravity"), case.limit("hardware.light_screw"),
                     case.limit("hardware.least_thread"), case.limit("structure.screw_withdrawal"))
    return dry * case.limit("structure.wet_screw")


def _told(case: Case, rule: str, cleat: Member, share: float) -> Finding:
    words, one = case.words, one_screw(case, cleat)
    pull = case.limit("structure.seat_load") / 2
    return Finding(
        rule, Level.CAUTION, f"{cleat.name}: hangs by its screws",
        f"{cleat.key} lies on nothing: {words.force(pull)} pulls at the screws of each place it hangs from.",
        words.force(pull), f"{words.force(pull / share)} at a place, {words.force(one)} a screw",
        case.source("structure.screw_withdrawal", "structure.wet_screw", "hardware.light_screw"),
        "Let the cleat lie on ledgers at both ends, or on the panels' edges.",
        f"0.7 × 2850·G²·D × thread = {words.force(one)}")
