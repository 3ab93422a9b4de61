"""A block that comes in several sizes: the largest that fits what is left of the page is printed."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable


class FirstThatFits(Flowable):
    """Blocks of flowables that say the same, the one liked most first; the block stays on one page.

    Where none fits, the first goes to the next page. On a page of its own that is too low still, it is told
    piece by piece: ``pieces``, or the last block.
    """

    def __init__(self, blocks: Sequence[Sequence[Flowable]], pieces: Sequence[Flowable] = ()) -> None:
        super().__init__()
        self.blocks = [list(block) for block in blocks]
        self.pieces = list(pieces or blocks[-1])
        self.chosen: list[tuple[Flowable, float]] = []

    def wrap(self, available_width: float, available_height: float) -> tuple[float, float]:
        sizes = [self._stacked(block, available_width) for block in self.blocks]
        fits = [placed for placed, high in sizes if high <= available_height]
        self.chosen = fits[0] if fits else sizes[0][0]
        self.width, self.height = available_width, sum(high for _, high in self.chosen)
        return self.width, self.height

    def getSpaceBefore(self) -> float:
        """That of the block's heading."""
        return float(self.blocks[0][0].getSpaceBefore())

    def split(self, available_width: float, available_height: float) -> list[Flowable]:
        """Told on its own page that it is too high still: the smallest block, piece by piece."""
        page = getattr(self, "_frame", None)
        full = page is not None and getattr(page, "_atTop", False)
        return self.pieces if full else []

    def draw(self) -> None:
        top = self.height
        for flowable, high in self.chosen:
            top -= high
            flowable.drawOn(self.canv, 0, top + flowable.getSpaceAfter())

    def _stacked(self, block: Sequence[Flowable], width: float) -> tuple[list[tuple[Flowable, float]], float]:
        """Each flowable with its height and the space around it; none before the first."""
        placed = [(one, one.wrapOn(None, width, 1e6)[1] + one.getSpaceAfter()
                   + (one.getSpaceBefore() if index else 0.0)) for index, one in enumerate(block)]
        return placed, sum(high for _, high in placed)
