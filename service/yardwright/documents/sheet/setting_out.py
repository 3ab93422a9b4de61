"""Setting out: where every part sits in the finished piece, from its left end, its front and the ground.

The room a part takes along each of the three is read off its solid, so a part that leans takes more than its
thickness. Places of parts evenly spaced are said of the first and the last one: a pitch rounded to be
printed would add up over a row.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from reportlab.platypus import Flowable, Spacer

from yardwright.domain.measure import Writer
from yardwright.domain.parts import Part
from yardwright.domain.piece.model import Piece
from yardwright.domain.quote import QuotedItem

from ..pages.tables import ruled, section, subhead
from ..pages.words import BODY, FAINT, SMALL, STRONG, para

Span = tuple[float, float]

_EVEN_MM = 0.5               # by how much evenly spaced places may differ
_MOST_SAID = 12              # uneven places of one part: a line of the table must find room on a page


def setting_out(items: Sequence[QuotedItem], names: Sequence[str], writer: Writer,
                width: float) -> list[Flowable]:
    """A line for each part that is cut from boards or sheets, in the order of their marks."""
    told = ("Where each part sits, lids shut, from its nearest to its farthest point: from the left end seen "
            "from in front, back from the foremost point, up from the ground.")
    story: list[Flowable] = [*section("Setting out", 150.0), para(told, FAINT), Spacer(0, 4)]
    for item, name in zip(items, names, strict=True):
        story += subhead(name) if len(items) > 1 else []
        rows = [[para(part.mark, STRONG), para(", ".join((part.name, *_hand(part))), BODY),
                 *(para(words, SMALL) for words in placed(item.piece, part, writer))]
                for part in item.parts if part.material != "roll"]
        each = (width - 30 - 112) / 3
        story.append(ruled(("Mark", "Part", "From the left end", "From the front", "From the ground"), rows,
                           (30, 112, each, each, each)))
    return story


def _hand(part: Part) -> tuple[str, ...]:
    return (f"{part.hand} hand",) if part.hand else ()


def placed(piece: Piece, part: Part, writer: Writer) -> tuple[str, str, str]:
    """Where the members of a part sit, in words: along, back and up, in the same order."""
    low = (piece.closed.low[0], piece.closed.low[1], min(0.0, piece.closed.low[2]))
    boxes = []
    for key in part.keys:
        corners = piece.member(key).corners
        boxes.append(tuple((min(p[k] for p in corners) - low[k], max(p[k] for p in corners) - low[k])
                           for k in range(3)))
    boxes.sort(key=lambda box: [round(a + b) for a, b in box])
    along, back, up = (_words(_apart([box[k] for box in boxes]), writer) for k in range(3))
    return along, back, up


def _apart(spans: Sequence[Span]) -> list[Span]:
    """Each place once, those within a hair of each other taken as one."""
    found: list[Span] = []
    for span in spans:
        if not any(abs(span[0] - a) < _EVEN_MM and abs(span[1] - b) < _EVEN_MM for a, b in found):
            found.append(span)
    return found


def _words(spans: Sequence[Span], writer: Writer) -> str:
    said = [_span(*span, writer) for span in spans]
    if len(spans) > 2 and _even(spans):
        return f"{said[0]} … {said[-1]}, {len(spans)} evenly"
    more = len(said) - _MOST_SAID
    return "; ".join((*said[:_MOST_SAID], *((f"and {more} more",) if more > 0 else ())))


def _span(first_mm: float, last_mm: float, writer: Writer) -> str:
    """``1 3/4 to 42 1/4 in``, kept on one line."""
    number = writer.mm(first_mm + 0.0).rpartition(" ")[0]
    return f"{number} to {writer.mm(last_mm)}".replace(" ", "\u00a0")


def _even(spans: Sequence[Span]) -> bool:
    """Whether they are alike and as far from one to the next."""
    steps = [b[k] - a[k] for a, b in pairwise(spans) for k in (0, 1)]
    return max(steps) - min(steps) < _EVEN_MM
