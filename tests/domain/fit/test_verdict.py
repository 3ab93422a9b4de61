"""The one sentence never says more than the findings under it."""

from __future__ import annotations

from typing import Any

import pytest

import fit_cases
from yardwright.domain.finding import Finding, Level
from yardwright.domain.fit.verdict import verdict

CASES = fit_cases.VECTORS["cases"]


def found(*levels: tuple[Level, str]) -> list[Finding]:
    return [Finding("fit", level, title, "") for level, title in levels]


@pytest.mark.parametrize("case", CASES, ids=lambda c: str(c["name"]))
def test_what_is_grave_is_named_and_only_a_clear_space_fits_without_more(case: dict[str, Any]) -> None:
    answer = fit_cases.answer(case)
    grave = [f for f in (*answer.doubts, *answer.findings) if f.level not in (Level.OK, Level.NOTE)]
    assert (answer.verdict == "It fits the space as measured.") is (answer.fits and not grave)
    named = [f for f in grave if f.level is Level.STOP] or [f for f in grave if f.level is Level.CAUTION]
    assert all(f.title in answer.verdict for f in named)
    assert answer.fits is answer.verdict.startswith(("It fits", "Its size fits"))


@pytest.mark.parametrize(("fits", "findings", "said"), [
    (True, found((Level.CAUTION, "The left corner is off square"), (Level.NOT_CHECKED, "Room: not checked")),
     "It fits as far as measured, but see: The left corner is off square. Not checked: Room."),
    (True, found((Level.STOP, "It cannot be brought in, even in parts"), (Level.CAUTION, "Tap: too near")),
     "Its size fits the space as measured, but it is stopped: It cannot be brought in, even in parts."),
    (False, found((Level.STOP, "Too long"), (Level.CAUTION, "Little room"), (Level.NOT_CHECKED, "A")),
     "It does not fit the space as measured: Too long."),
    (False, found((Level.NOT_CHECKED, "Length of the wall: not checked")),
     "Whether it fits the space is not known. Not checked: Length of the wall."),
    (True, found((Level.NOTE, "Where it may stand"), (Level.OK, "There is room for it")),
     "It fits the space as measured.")])
def test_what_is_grave_comes_first(fits: bool, findings: list[Finding], said: str) -> None:
    assert verdict(fits, findings) == said
