"""The work: hours by phase and operation, and the steps of putting each item together."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable, Paragraph

from yardwright.domain.labour import Labour, Operation
from yardwright.domain.parts import Part
from yardwright.domain.quote import QuotedItem

from ..pages.tables import ruled, section, subhead
from ..pages.words import (
    BODY,
    FAINT,
    RIGHT,
    RIGHT_SMALL,
    RIGHT_STRONG,
    SMALL,
    STRONG,
    para,
    say,
)


def labour_sheet(labour: Labour, width: float) -> list[Flowable]:
    """Minutes by operation, grouped by phase; the hours of the job and the days it takes."""
    rows: list[list[Flowable]] = []
    heads: list[int] = []
    for phase in dict.fromkeys(o.phase for o in labour.operations):
        own = [o for o in labour.operations if o.phase == phase]
        hours = sum(o.minutes for o in own) / 60
        heads.append(len(rows))
        rows.append([para(phase.capitalize(), STRONG), *(para("") for _ in range(4)),
                     para(f"{hours:.2f} h", RIGHT_STRONG)])
        rows += [_row(o) for o in own]
    rows.append([para("All together", STRONG), *(para("") for _ in range(4)),
                 para(f"{labour.hours:.2f} h", RIGHT_STRONG)])
    return [*section("Hours", 160.0),
            ruled(("Operation", "Count", "", "Set-up, min", "Each, min", "Minutes"), rows,
                  (width - 46 - 60 - 64 - 60 - 60, 46, 60, 64, 60, 60), right=(1, 3, 4, 5),
                  together=(*heads, len(rows) - 2)),
            para(labour.working, FAINT)]


def _row(operation: Operation) -> list[Flowable]:
    return [para(operation.name, BODY), para(f"{operation.count:.4g}", RIGHT_SMALL),
            para(operation.per, SMALL), para(f"{operation.setup_minutes:g}", RIGHT_SMALL),
            para(f"{operation.each_minutes:.3g}", RIGHT_SMALL), para(f"{operation.minutes:.0f}", RIGHT)]


def assembly(items: Sequence[QuotedItem], names: Sequence[str]) -> list[Flowable]:
    """Steps in order, each with the marks of the parts it takes."""
    story: list[Flowable] = []
    for item, name in zip(items, names, strict=True):
        if not item.piece.assembly:
            continue
        story += subhead(name)
        for number, step in enumerate(item.piece.assembly, 1):
            marks = marks_of(step.members, item.parts)
            told = f'<font name="Yard-Semibold">{say(", ".join(marks))}</font>' if marks else ""
            story.append(Paragraph(f"{say(step.text)} {told}", STEP, bulletText=f"{number}."))
    return [*section("Putting it together"), *story] if story else []


STEP = BODY.clone("step", leftIndent=18, bulletIndent=2, spaceAfter=2)


def marks_of(patterns: Sequence[str], parts: Sequence[Part]) -> list[str]:
    """The marks of the parts whose member keys or names a step names; ``*`` stands for any ending."""
    return [part.mark for part in parts if any(_named(part, pattern) for pattern in patterns)]


def _named(part: Part, pattern: str) -> bool:
    names = (part.name, part.made_of, *part.keys)
    if pattern.endswith("*"):
        return any(n.startswith(pattern[:-1]) for n in names if n)
    return pattern in names
