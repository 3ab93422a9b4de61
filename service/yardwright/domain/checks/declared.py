"""Declared: heights and gaps that a template gives its checks, where its solids show others.

The checks judge what the solids show (as_built.py); here it is said, once for each figure. A stop: a template
that is wrong about its own seat may be wrong about more. Always runs; nothing where all agrees to the shop's
working step. mm. Source: geometry of the piece.
Limits of validity: heights and gaps that as_built.py finds in the solids.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..measure import to_mm
from ..piece.model import AskedCheck
from .rule import Case, Declared, Rule


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A stop for each figure that is not as built; not checked where a limit is missing to find it out."""
    return (*(_told(asked, case, one) for one in dict.fromkeys(case.declared)),
            *(Finding(asked.rule.rule, Level.NOT_CHECKED, "What the solids call for: not checked",
                      f"Not checked: {why}.", source="geometry of the piece",
                      mend="Give the missing figure, or have a person who knows check it.")
              for why in case.unseen))


def _told(asked: AskedCheck, case: Case, one: Declared) -> Finding:
    what = one.what
    return Finding(
        asked.rule.rule, Level.STOP, f"The template is wrong about {what}",
        f"Its check {one.rule} is given {one.said}; its solids show {one.found}, and were judged so.",
        one.found, one.said, "geometry of the piece",
        f"Mend the template: give the check {one.rule} {what} as it is built.",
        f"{one.found} as built against {one.said} as given; the shop's working step is "
        f"{case.words.fine(to_mm(case.shop.saw.step_nm))}")


RULE = Rule("declared", check)
