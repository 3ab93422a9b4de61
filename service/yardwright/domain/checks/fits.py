"""Fit: what the measured space says, and a stop when the piece does not go in.

The findings of fit.py are handed on as they are (clearances, keep-clear zones, the way in); nothing is
judged twice. Always runs. Source: the site's readings.
Limits of validity: those of the measured readings and of fit/.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .rule import Case, Rule


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """The fit's own findings, and a stop for a piece too big that none of them stops."""
    fit = case.fit
    if fit is None:
        return ()
    if fit.fits or any(f.level is Level.STOP for f in fit.findings):
        return fit.findings
    short = (c for c in fit.clearances if c.clearance_nm < c.needed_nm)
    tight = min(short, key=lambda c: c.clearance_nm - c.needed_nm, default=None)
    where = (f"{tight.side}, decided by {tight.binding}" if tight else
             "no place along the wall is known to be free")
    measured = case.writer.length(tight.clearance_nm) if tight else ""
    limit = case.writer.length(tight.needed_nm) if tight else ""
    best = fit.best_nm or {}
    mend = ("Largest that fits: " + ", ".join(f"{n} {case.writer.length(v)}" for n, v in best.items()) + "."
            if best else "Choose another place or another piece.")
    worked = f"{measured} left, {limit} needed: {tight.binding}" if tight else "no free stretch of the wall"
    stop = Finding(asked.rule.rule, Level.STOP, "It does not fit the space", f"Too tight: {where}.",
                   measured or "0", limit or "the piece's length in one stretch", "the site's readings", mend,
                   worked)
    return (*fit.findings, stop)


RULE = Rule("fit", check)
