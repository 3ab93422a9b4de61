"""Findings in plain words: a stop first and never left out, what is in order last and briefly."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from reportlab.platypus import Flowable, KeepTogether, Paragraph, Spacer, Table

from .tables import plain
from .words import BADGE, BADGE_DARK, BODY, FAINT, INK, RULE, SMALL, STRONG, para, say

Json = Mapping[str, Any]

ORDER = ("stop", "caution", "not checked", "note")


def findings(found: Sequence[Json], width: float, working: bool = False) -> list[Flowable]:
    """One row a finding, the gravest first; those in order in one sentence.

    ``working`` prints rule, source and working of each as well, those in order included: the shop's side.
    """
    rest = [f for level in ORDER for f in found if f.get("level") == level]
    rest += [f for f in found if f.get("level") not in (*ORDER, "ok")]
    fine = [f for f in found if f.get("level") == "ok"]
    shown = rest + fine if working else rest
    story: list[Flowable] = [KeepTogether([_row(f, width, working)]) for f in shown]
    if fine and not working:
        story += [Spacer(0, 4), _in_order(fine)]
    return story


def _row(finding: Json, width: float, working: bool) -> Table:
    level = str(finding.get("level", ""))
    body: list[Flowable] = [para(finding.get("title") or finding.get("rule", ""), STRONG)]
    if finding.get("detail"):
        body.append(para(finding["detail"], BODY))
    if line := _figures(finding):
        body.append(para(line, FAINT))
    if finding.get("mend"):
        body.append(Paragraph(f'<font name="Yard-Semibold">What would mend it:</font> {say(finding["mend"])}',
                              SMALL))
    if working:
        told = ".  ".join(f"{label}: {finding[key]}" for label, key in
                          (("Rule", "rule"), ("Working", "working"), ("Source", "source"))
                          if finding.get(key))
        body.append(para(told, FAINT))
    return plain([[_badge(level), "", body]], (80, 10, width - 90), (
        ("TOPPADDING", (0, 0), (-1, -1), 4), ("BOTTOMPADDING", (0, 0), (-1, -1), 4.5),
        ("LINEBELOW", (0, 0), (-1, -1), 0.35, RULE)))


def _figures(finding: Json) -> str:
    measured, limit = finding.get("measured"), finding.get("limit")
    if measured and limit:
        return f"Here {measured}; limit: {limit}."
    return f"Here {measured}." if measured else f"Limit: {limit}." if limit else ""


def _badge(level: str) -> Table:
    """The level as a word in a frame, black for a stop: it reads without colour."""
    dark = level == "stop"
    more = [("BOX", (0, 0), (-1, -1), 1.1 if level == "caution" else 0.6, INK),
            ("TOPPADDING", (0, 0), (-1, -1), 1.2), ("BOTTOMPADDING", (0, 0), (-1, -1), 2.4)]
    if dark:
        more.append(("BACKGROUND", (0, 0), (-1, -1), INK))
    return plain([[para(level.upper(), BADGE_DARK if dark else BADGE)]], (76,), more)


def _in_order(fine: Sequence[Json]) -> Paragraph:
    names = dict.fromkeys(str(f.get("title") or f.get("rule", "")) for f in fine)
    text = "; ".join(names)
    return Paragraph(f'<font name="Yard-Semibold">Checked and in order:</font> {say(text)}.', SMALL)
