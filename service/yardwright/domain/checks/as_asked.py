"""Does the piece come out as large as it was asked, and does the box that the fit was told by hold it? mm.

A template of the shop's own may have been changed and not tried since: what is printed as the overall size,
and what was found to fit, must be what is built. Larger than asked, or short by more than the shop's working
step, is a stop; nothing is said where all is as asked. Rule: ``piece/extents.py``.
Source: geometry of the piece.
Limits of validity: overall sizes and the fit's box alone.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.extents import envelope_faults, not_as_asked
from ..piece.model import AskedCheck
from .rule import Case, Rule

SOURCE = "geometry of the piece"
MEND = "The template of this piece must be mended before it is quoted."


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One stop for all overall sizes, the customer's to read too; one for a fit told by too small a box."""
    found = []
    if sizes := not_as_asked(case.piece, case.shop, case.writer):
        most, say = max(sizes, key=lambda size: abs(size.off_mm)), case.writer.fine
        working = f"{say(most.size_mm)} - {say(most.asked_mm)} = {say(most.off_mm)}"
        found.append(Finding(asked.rule.rule, Level.STOP, "The piece does not come out as asked",
                             f"It comes out {', and '.join(size.words for size in sizes)}.",
                             say(abs(most.off_mm)), "0", SOURCE, MEND, working))
    if boxes := tuple(envelope_faults(case.piece, case.writer)):
        told = "; ".join(f"{fault.pointer[1:].replace('/', '.')} {fault.detail.partition(': ')[0]}"
                         for fault in boxes)
        found.append(Finding(asked.rule.rule, Level.STOP, "It is larger than the box its fit was found for",
                             f"{told}.", f"{len(boxes)} of the fit's measures too small", "0", SOURCE, MEND,
                             "the solids, shut and open, against fit.envelope", customer=False))
    return tuple(found)


RULE = Rule("as asked", check)
