"""What the drawing of one part is made from, and where its views stand: face, lower edge, right end."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from yardwright.domain.measure import Writer, from_mm

from .features import SAME_MM, Features
from .model import text_width
from .part_axes import Laid
from .roundings import Rounding
from .shortening import Shortening

if TYPE_CHECKING:
    from yardwright.domain.parts import Part

Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Sheet:
    """One part as it lies, its features and words; ``height`` is that of its words."""

    part: Part
    laid: Laid
    found: Features
    short: Shortening
    rounds: tuple[Rounding, ...]
    writer: Writer
    height: float

    @property
    def size(self) -> tuple[float, float, float]:
        """Length as drawn, width and thickness."""
        length, width, thickness = self.found.size
        return (self.short(length), width, thickness)

    @property
    def gap(self) -> float:
        """Between the views."""
        return 2.0 * self.height

    @property
    def down(self) -> float:
        """Where the view of the lower edge begins."""
        return -self.gap - self.size[2]

    @property
    def beside(self) -> float:
        """From the face view to that of the end; the sizes of a narrower right end stand between them."""
        return self.gap + sum(text_width(text, self.height) + 1.7 * self.height
                              for _, text in self.right_words)

    @property
    def ended(self) -> bool:
        """Whether the view of the end says something."""
        return any(edge.kind == "bevel" for edge in self.found.edges)

    @property
    def right_words(self) -> list[tuple[Span, str]]:
        """What a narrower right end measures, and where it begins if tapered from both edges."""
        return [(span, self.writer.mm(span[1] - span[0])) for span in self.narrowed(self.found.right_end)]

    def narrowed(self, end: Span | None) -> list[Span]:
        """Of a narrower end: from the lower edge to it, where it is off both edges, and itself."""
        if end is None:
            return []
        off_both = end[0] > SAME_MM and end[1] < self.found.size[1] - SAME_MM
        return [(0.0, end[0]), end] if off_both else [end]

    def short_edges(self) -> list[tuple[Span, str]]:
        """Where the face's edges run that its ends make shorter than the part; the far face's for a bevel.

        Their lengths are the cut list's less what the ends take off, so that both measure the same part.
        """
        whole, width, _ = self.found.size
        ends = self.found.ends
        if sum(e.left for e in ends) > 1 or sum(not e.left for e in ends) > 1 or any(
                edge.kind == "taper" for edge in self.found.edges):
            return []
        near = [self.found.run(v) for v in (0.0, width)]
        runs = near if any(b - a < whole - SAME_MM for a, b in near) else [self.found.run(0.0, 0.0)]
        said = {self.writer.length(self.part.length_nm - from_mm(whole - (b - a))): (a, b) for a, b in runs
                if b - a > SAME_MM}
        return [(run, text) for text, run in said.items()
                if text != self.writer.length(self.part.length_nm)]
