"""Runs a piece's checks: what its template declares and what always applies, most serious first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..errors import BadData
from ..finding import Finding, Level
from ..fit.model import Fit
from ..measure import Writer
from ..piece.model import AskedCheck, Piece
from ..shop import Shop
from ..site import Site
from ..template.model import CheckRule
from .as_built import as_built
from .catalogue import ALWAYS, RULES
from .rule import Case, Rule, Unknown, case_of, why

ORDER = (Level.STOP, Level.CAUTION, Level.NOT_CHECKED, Level.NOTE, Level.OK)


def run(piece: Piece, fit: Fit | None, site: Site, shop: Shop, writer: Writer,
        only: str = "", worked_on_site: bool = False) -> tuple[Finding, ...]:
    """Every finding about one piece on its site: stop, caution, not checked, note, ok in this order.

    ``only`` names one rule to run alone; ``worked_on_site``: the shop goes there, and prices its work.
    """
    case = as_built(replace(case_of(piece, fit, site, shop, writer), worked_on_site=worked_on_site))
    found = [f for rule, asked in _asked(case.piece) if only in ("", asked.rule.rule)
             for f in _checked(rule, asked, case)]
    return tuple(sorted(dict.fromkeys(found), key=lambda f: ORDER.index(f.level)))


def _asked(piece: Piece) -> Iterator[tuple[Rule | None, AskedCheck]]:
    for asked in piece.checks:
        yield RULES.get(asked.rule.rule), asked
    for rule in ALWAYS:
        yield rule, AskedCheck(CheckRule(rule.name), {}, ())


def _checked(rule: Rule | None, asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    name = asked.rule.rule
    if rule is None:
        return (_unchecked(name, f"there is no check '{name}'"),)
    try:
        return rule.check(asked, case)
    except (Unknown, BadData) as missing:
        return (_unchecked(name, why(missing)),)
    except (ArithmeticError, ValueError):
        # A shop's own template may ask for a shape the rule has no sense for: a back that lies flat.
        return (_unchecked(name, "this shape is beyond what the rule can work out"),)


def _unchecked(name: str, why: str) -> Finding:
    return Finding(name, Level.NOT_CHECKED, f"{name[0].upper()}{name[1:]}: not checked",
                   f"Not checked: {why}.", mend="Give the missing figure, or have a person who knows "
                   "check it.")
