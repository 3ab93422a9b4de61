"""What a trial found, as lines a shop owner can act on: file and line, what is wrong, how often, where."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

from ..domain.errors import Fault
from ..domain.piece.points import Point
from ..domain.piece.trial import TrialFault, TrialReport
from ..domain.template import Template
from .slips import text_of
from .templates import in_file

_NUMBER = re.compile(r"(less than )?-?[0-9]+(?:\.[0-9]+)?(?: [0-9]+/[0-9]+|/[0-9]+)?")
FEW = 6                  # faults of a kind, from which what they have in common says something

WIDER = "a wider or thicker section, or a smaller width or thickness"


def report_lines(report: TrialReport, template: Template, path: Path) -> list[str]:
    """Two lines for each kind of fault, the most frequent first: place and words, then its first point."""
    text = text_of(path)
    found: list[str] = []
    for lack in report.lacking:
        found += [_told(lack, template, path.name, text), "    at every size"]
    for faults in sorted(_kinds(report.faults), key=len, reverse=True):
        first = faults[0]
        found += [_told(Fault(first.pointer, said(first)), template, path.name, text),
                  f"    at {first.point.words()}{_also(faults, report.tried.points)}"]
    return found


def said(fault: TrialFault) -> str:
    """The fault in its own words, and what would do where they do not say it."""
    words = fault.detail.rstrip(".")
    return f"{words}: {WIDER}" if " gives " in words and not fault.built else words


def _kinds(faults: Sequence[TrialFault]) -> list[list[TrialFault]]:
    """Faults that differ in nothing but numbers, together."""
    kinds: dict[tuple[str, str], list[TrialFault]] = {}
    for fault in faults:
        kinds.setdefault((fault.pointer, _NUMBER.sub("#", fault.detail).replace(" #", "")), []).append(fault)
    return list(kinds.values())


def _told(fault: Fault, template: Template, name: str, text: str) -> str:
    """The place and the words, and in brackets where other members that are named stand."""
    placed = fault if fault.pointer else Fault(_first_named(fault.detail, template), fault.detail)
    shown = in_file(name, text, placed)
    others = {rule.name: in_file(name, text, Fault(rule.where, "")).pointer.rpartition(":")[2]
              for rule in template.members
              if rule.where != placed.pointer and _names(fault.detail, rule.name, template)}
    also = "; ".join(f"{called}: line {line}" for called, line in others.items())
    words = fault.detail if placed.pointer[-1:].isdigit() else shown.detail     # a rule is named in its words
    return f"{shown.pointer}  {words}" + (f" ({also})" if also else "")


def _first_named(detail: str, template: Template) -> str:
    """The rule of the joint or member that is named first, "" where none is."""
    named = [(detail.find(rule.name), -len(rule.name), rule.where)
             for rule in (*template.joints, *template.members) if rule.name in detail]
    return min(named)[2] if named else ""


def _names(detail: str, name: str, template: Template) -> bool:
    """Whether the words name that member, and not one whose name its own is part of."""
    for rule in template.members:
        if rule.name != name and name in rule.name:
            detail = detail.replace(rule.name, "")
    return re.search(rf"\b{re.escape(name)}\b", detail) is not None


def tried_words(report: TrialReport) -> str:
    """``248 points: 8 corners with 6 of 48 combinations of choices each, 200 between``."""
    plan = report.tried
    corners = f"{plan.corners} of " if plan.corners < plan.all_corners else ""
    each = f"{plan.at_corner} of" if plan.at_corner < plan.combinations else "all"
    many = plan.combinations
    choices = f" with {each} {many} combinations of choices each" if many > 1 else ""
    between = report.points - plan.corners * plan.at_corner
    return f"{report.points} points tried: {corners}{plan.all_corners} corners{choices}, {between} between"


def _also(faults: Sequence[TrialFault], tried: Sequence[Point]) -> str:
    """`` (and at 37 more of 248, all with back none)``."""
    points = {fault.point.words(): fault.point for fault in faults}
    if len(points) < 2:
        return ""
    if len(points) == len(tried):
        return f" (and at all others, {len(tried)})"
    common = _common(list(points.values()), tried) if len(points) >= FEW else ""
    return f" (and at {len(points) - 1} more of {len(tried)}{common})"


def _common(points: Sequence[Point], tried: Sequence[Point]) -> str:
    """The choices and the ends of ranges that points share and others do not."""
    found = []
    for name in tried[0].choices:
        words = {point.choices.get(name, "") for point in points}
        if len(words) == 1 and len({point.choices.get(name, "") for point in tried}) > 1:
            found.append(f"with {name} {words.pop()}")
    for name in tried[0].dimensions_nm:
        least, *_, most = sorted(points, key=lambda point: point.dimensions_nm[name])
        sizes_nm = [point.dimensions_nm[name] for point in tried]
        if least.dimensions_nm[name] > min(sizes_nm):
            found.append(f"at {name} {least.size(name)} and more")
        if most.dimensions_nm[name] < max(sizes_nm):
            found.append(f"at {name} {most.size(name)} and less")
    return f", all {', '.join(found)}" if found else ""
