"""What a trial found, as lines a shop owner can act on: file and line, what is wrong, how often, where."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from pathlib import Path

from ..domain.errors import Fault
from ..domain.piece.points import Point
from ..domain.piece.trial import TrialFault, TrialReport
from ..domain.template import Template
from .slips import text_of
from .templates import in_file

_NUMBER = re.compile(r"(less than )?-?[0-9]+(?:\.[0-9]+)?(?: [0-9]+/[0-9]+|/[0-9]+)?")
MOST_ALIKE = 3           # kinds that differ in nothing but what else they name are told in full
MOST_NAMED = 6
BY_CHANCE = 0.01         # what points share is told where chance would seldom make them share it
WIDER = "a wider or thicker section, or a smaller width or thickness"


def report_lines(report: TrialReport, template: Template, path: Path) -> list[str]:
    """Two lines for each kind of fault, the most frequent first: place and words, then its first point."""
    text = text_of(path)
    found: list[str] = []
    for lack in report.lacking:
        found += [_told(lack, template, path.name, text), "    whatever the size"]
    for alike in _alike(_kinds(report.faults), template):
        for faults in alike[:MOST_ALIKE]:
            first = faults[0]
            found += [_told(Fault(first.pointer, said(first)), template, path.name, text),
                      f"    at {first.point.words()}{_also(faults, report.tried.points)}"]
        if more := alike[MOST_ALIKE:]:
            found[-1] += f"\n    and {len(more)} more kinds like these, {_of_what(more, template)}"
    return found


def said(fault: TrialFault) -> str:
    """The fault in its own words, and what would do where they do not say it."""
    words = fault.detail.rstrip(".")
    return f"{words}: {WIDER}" if " gives " in words and not fault.built else words


def whole_words(fault: TrialFault) -> str:
    """The same where no line stands before it: with the entry's own path, unless a rule is named in it."""
    words = said(fault)
    return words if _is_rule(fault.pointer) else in_file("", "", Fault(fault.pointer, words)).detail


def tried_words(report: TrialReport) -> str:
    """``90 points tried: 2 as offered, 8 corners with 6 of 48 combinations of choices each, 40 between``."""
    plan = report.tried
    corners = f"{plan.corners} of " if plan.corners < plan.all_corners else ""
    each = f"{plan.at_corner} of" if plan.at_corner < plan.combinations else "all"
    many = plan.combinations
    choices = f" with {each} {many} combinations of choices each" if many > 1 else ""
    between = report.points - plan.usual - plan.corners * plan.at_corner
    return (f"{report.points} points tried: {plan.usual} as offered, {corners}{plan.all_corners} "
            f"corners{choices}, {between} between")


def _is_rule(pointer: str) -> bool:
    """Whether it points at a whole member, joint or check, which its words name."""
    return not pointer or pointer[-1].isdigit()


def _kinds(faults: Sequence[TrialFault]) -> list[list[TrialFault]]:
    """Faults that differ in nothing but numbers, together, the most frequent first."""
    kinds: dict[tuple[str, str], list[TrialFault]] = {}
    for fault in faults:
        kinds.setdefault((fault.pointer, _NUMBER.sub("#", fault.detail).replace(" #", "")), []).append(fault)
    return sorted(kinds.values(), key=len, reverse=True)


def _alike(kinds: Sequence[list[TrialFault]], template: Template) -> list[list[list[TrialFault]]]:
    """Kinds at one place that differ in nothing but the members they name, together."""
    found: dict[tuple[str, str], list[list[TrialFault]]] = {}
    for faults in kinds:
        shape = _NUMBER.sub("", faults[0].detail)
        for name in sorted((rule.name for rule in template.members), key=len, reverse=True):
            shape = shape.replace(name, "")
        found.setdefault((faults[0].pointer, " ".join(shape.split())), []).append(faults)
    return list(found.values())


def _of_what(kinds: Sequence[list[TrialFault]], template: Template) -> str:
    """The members that folded kinds name besides the rule at which they stand."""
    firsts = [faults[0] for faults in kinds]
    others = {name: None for first in firsts for name in _named(first.detail, template, first.pointer)}
    listed = [*others][:MOST_NAMED]
    return "of " + ", ".join((*listed, *(["..."] if len(others) > MOST_NAMED else [])))


def _told(fault: Fault, template: Template, name: str, text: str) -> str:
    """The place and the words, and in brackets where other members that are named stand."""
    placed = fault if fault.pointer else Fault(_first_named(fault.detail, template), fault.detail)
    shown = in_file(name, text, placed)
    words = fault.detail if _is_rule(placed.pointer) else shown.detail
    lines = {called: in_file(name, text, Fault(where, "")).pointer.rpartition(":")[2]
             for called, where in _named(fault.detail, template, placed.pointer).items()}
    also = "; ".join(f"{called}: line {line}" for called, line in lines.items())
    return f"{shown.pointer}  {words}" + (f" ({also})" if also else "")


def _first_named(detail: str, template: Template) -> str:
    """The rule of the joint or member that is named first, "" where none is."""
    named = [(detail.find(rule.name), -len(rule.name), rule.where)
             for rule in (*template.joints, *template.members) if rule.name in detail]
    return min(named)[2] if named else ""


def _named(detail: str, template: Template, pointer: str) -> Mapping[str, str]:
    """The members that words name, but for that at the pointer, each with its rule's place."""
    found: dict[str, str] = {}
    for rule in sorted(template.members, key=lambda rule: -len(rule.name)):
        if re.search(rf"(?<!\w){re.escape(rule.name)}(?!\w)", detail):
            detail = detail.replace(rule.name, "")
            if rule.where != pointer:
                found[rule.name] = rule.where
    return found


def _also(faults: Sequence[TrialFault], tried: Sequence[Point]) -> str:
    """`` (and at 37 more of 248, all with back none)``."""
    points = list({fault.point.words(): fault.point for fault in faults}.values())
    if len(points) < 2:
        return ""
    if len(points) == len({point.words() for point in tried}):
        return f" (and at all the others of {len(tried)})"
    common = ", ".join(_common(points, tried))
    return f" (and at {len(points) - 1} more of {len(tried)}{f', all {common}' if common else ''})"


def _common(points: Sequence[Point], tried: Sequence[Point]) -> list[str]:
    """The choices and the ends of ranges that these points share, and not by chance."""
    def telling(kept: int) -> bool:
        return float(kept / len(tried)) ** len(points) < BY_CHANCE

    found = []
    for name in tried[0].choices:
        words = {point.choices.get(name, "") for point in points}
        if len(words) == 1 and telling(sum(point.choices.get(name, "") in words for point in tried)):
            found.append(f"with {name} {words.pop()}")
    for name in tried[0].dimensions_nm:
        least, *_, most = sorted(points, key=lambda point: point.dimensions_nm[name])
        sizes_nm = [point.dimensions_nm[name] for point in tried]
        if telling(sum(nm >= least.dimensions_nm[name] for nm in sizes_nm)):
            found.append(f"at {name} {least.size(name)} and more")
        if telling(sum(nm <= most.dimensions_nm[name] for nm in sizes_nm)):
            found.append(f"at {name} {most.size(name)} and less")
    return found
