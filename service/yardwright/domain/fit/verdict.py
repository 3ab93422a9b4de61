"""The answer in one sentence, for every place that prints one: it says no more than the findings do.

pwa/logic/verdict.js is the same sentence; both pass tests/vectors/fits.json.
"""

from __future__ import annotations

from collections.abc import Iterable

from ..finding import Finding, Level

UNCHECKED = ": not checked"


def verdict(fits: bool, findings: Iterable[Finding]) -> str:
    """Fits; fits, but see what is named; fits as far as measured; or not, and why."""
    found = tuple(findings)
    stops, cautions, unknown = (_named(found, level) for level in (
        Level.STOP, Level.CAUTION, Level.NOT_CHECKED))
    if not fits:
        why = stops or cautions
        if unknown and not why:
            return f"Whether it fits the space is not known. Not checked: {unknown}."
        return f"It does not fit the space as measured{f': {why}' if why else ''}."
    if stops:
        said = f"Its size fits the space as measured, but it is stopped: {stops}."
    else:
        said = "It fits as far as measured" if unknown else "It fits the space as measured"
        said += f", but see: {cautions}." if cautions else "."
    return f"{said} Not checked: {unknown}." if unknown else said


def _named(found: Iterable[Finding], level: Level) -> str:
    return "; ".join(dict.fromkeys(f.title.removesuffix(UNCHECKED) for f in found if f.level is level))
