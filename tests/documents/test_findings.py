"""Findings on paper: every kind of limit reads as a sentence."""

from __future__ import annotations

import pytest
from reportlab.platypus import Paragraph

from yardwright.documents.pages.findings import findings


def told(**finding: str) -> str:
    """The words of one finding as a page holds them."""
    (row,) = findings([{"level": "note", "title": "T"} | finding], 500.0)
    cells = row._content[0]._cellvalues[0][2]
    return " ".join(part.text for part in cells if isinstance(part, Paragraph))


@pytest.mark.parametrize(("limit", "read"), [
    ("100 lbf", "Here 42 lbf on each; limit: 100 lbf."),
    ("none on plain ground", "Here 42 lbf on each; limit: none on plain ground."),
    ("not known: no load is given for them",
     "Here 42 lbf on each; limit: not known: no load is given for them.")])
def test_a_limit_that_is_no_figure_reads_as_one_that_is(limit: str, read: str) -> None:
    assert read in told(measured="42 lbf on each", limit=limit)
