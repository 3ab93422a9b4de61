"""What a trial found, as lines a shop owner can act on: file and line, what is wrong, how often, where."""

from __future__ import annotations

import re
from pathlib import Path

from ..domain.errors import Fault
from ..domain.piece.trial import TrialFault, TrialReport
from ..domain.template import Template
from .slips import text_of
from .templates import in_file

_NUMBER = re.compile(r"-?[0-9]+(?:\.[0-9]+)?")
_POINTER = re.compile(r"(/[^\s:]*): (.*)", re.DOTALL)

WOULD_DO = {
    " share .* mm3": "move or shorten one, cut it away, or allow it by may_share in their joint",
    " touches none of ": "move it until the faces meet, or take it out of the joint",
    " is held by nothing": "name it in a joint or glue-up that leads to the rest",
    "^the solids' .* asked": "mend the members, or what [overall] says",
    "^fit.envelope.* the solids need": "say at least that much",
    " mm; .* gives ": "a wider or thicker section, or a smaller width or thickness",
    " mm long; the longest ": "a lower max, or a section that is sold longer",
    "^the gaps come out": "wider bounds, or a smaller step",
    "^open, the piece stands": "turn the hinge so that it opens within the piece's ends",
}


def report_lines(report: TrialReport, template: Template, path: Path) -> list[str]:
    """Two lines for each kind of fault, the most frequent first: place and words, then its first point."""
    text = text_of(path)
    kinds: dict[str, list[TrialFault]] = {}
    for fault in report.faults:
        kinds.setdefault(_NUMBER.sub("#", fault.detail).replace(" #", ""), []).append(fault)
    found: list[str] = []
    for lack in report.lacking:
        found += [f"{in_file(path.name, text, lack).pointer}  {lack.detail}", "    at every size"]
    for faults in sorted(kinds.values(), key=len, reverse=True):
        first = faults[0]
        placed = in_file(path.name, text, _placed(first.detail, template))
        others = len({fault.point.words() for fault in faults}) - 1
        more = f" (and at {others} more)" if others else ""
        found += [f"{placed.pointer}  {said(first)}", f"    at {first.point.words()}{more}"]
    return found


def said(fault: TrialFault) -> str:
    """The fault in its own words, and what would do."""
    found = _POINTER.fullmatch(fault.detail)
    words = (found[2] if found else fault.detail.removeprefix(": ")).rstrip(".")
    would_do = next((hint for kind, hint in WOULD_DO.items() if re.search(kind, words)), "")
    return f"{words}: {would_do}" if would_do else words


def _placed(detail: str, template: Template) -> Fault:
    """Where in the template a fault comes from: its own pointer, else the rule of what it names first."""
    if found := _POINTER.fullmatch(detail):
        return Fault(found[1], found[2])
    named = [(detail.find(rule.name), -len(rule.name), rule.where)
             for rule in (*template.joints, *template.members) if rule.name in detail]
    if named:
        return Fault(min(named)[2], detail)
    for words, pointer in (("fit.envelope.", "/fit/envelope/"), ("the solids' ", "/overall/"),
                           ("before nothing in ", "/overall/")):
        if words in detail:
            return Fault(pointer + detail.partition(words)[2].split()[0], detail)
    return Fault("", detail)
