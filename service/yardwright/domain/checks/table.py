"""Table: height, knee room, drop from the top to the seat, where the bench stands, places along it.

Bounds by user from data/limits/table.toml: dining and picnic guides (seen), 2010 ADA Standards 902.3 (seen)
and 306.3 (memory). ``bench_offset`` is the level distance from the table's edge out to the bench's front
edge. Lengths in mm.
Limits of validity: level tops, people of common size. Source: data/limits/table.toml.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .rule import Case, Rule

USERS = ("adult", "older", "child", "accessible")
TOLERANCE_MM = 1.0           # a working step is not a fault
_FROM = {"height": "height asked for", "width": "width asked for",
         "knee_height": "ground to what is lowest under the top",
         "drop": "top of the table less top of the seat",
         "bench_offset": "edge of the table out to the seat's front"}


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One finding for each size the template gives."""
    users = str(asked.values.get("users") or asked.rule.words.get("users", "adult"))
    users = users if users in USERS else "adult"
    sizes = "child" if users == "child" else "adult"
    return (
        *bounded(asked, case, "height", "Table height", f"table.height.{users}_least",
                 f"table.height.{users}_most", "Change the table's height."),
        *bounded(asked, case, "knee_height", "Room for knees", f"table.knee.{users}_least", "",
                 "Raise the apron or leave it off."),
        *_thighs(asked, case),
        *bounded(asked, case, "drop", "Seat to table top", f"table.drop.{sizes}_least",
                 f"table.drop.{sizes}_most", "Change the height of the table or of the seat."),
        *bounded(asked, case, "bench_offset", "Bench from the table's edge", "table.bench_offset.least",
                 "table.bench_offset.most", "Move the bench nearer to the table or further out."),
        *bounded(asked, case, "width", "Table width", "table.width.picnic_least", "table.width.most",
                 "Change the table's width.", Level.NOTE),
        *_places(asked, case))


def bounded(asked: AskedCheck, case: Case, value: str, what: str, least: str, most: str, mend: str,
            level: Level = Level.CAUTION) -> Iterator[Finding]:
    """A size against one or two limits ("" = none); nothing when the template does not give the size."""
    given, words = _value(asked, value), case.words
    if given is None:
        return
    low = case.limit(least)
    high = case.limit(most) if most else float("inf")
    good = low - TOLERANCE_MM <= given <= high + TOLERANCE_MM
    limit = f"{words.length(low)} to {words.length(high)}" if most else f"{words.length(low)} at least"
    yield Finding(asked.rule.rule, Level.OK if good else level,
                  f"{what}: " + ("suits" if good else "too small" if given < low else "too large"),
                  f"It is {words.length(given)}.", words.length(given), limit, case.source(least, most),
                  "" if good else mend,
                  f"{_FROM.get(value, value)}: "
                  + words.held(given, low, high if most else None, TOLERANCE_MM))


def _value(asked: AskedCheck, name: str) -> float | None:
    if name == "drop":
        if "seat_height" not in asked.values:
            return None
        return float(asked.values["height"]) - float(asked.values["seat_height"])
    return float(asked.values[name]) if name in asked.values else None


def _thighs(asked: AskedCheck, case: Case) -> Iterator[Finding]:
    if "seat_height" not in asked.values or "knee_height" not in asked.values:
        return
    room = float(asked.values["knee_height"]) - float(asked.values["seat_height"])
    least, words = case.limit("table.knee.thigh"), case.words
    good = room >= least - TOLERANCE_MM
    yield Finding(asked.rule.rule, Level.OK if good else Level.CAUTION,
                  "Room for thighs" if good else "Little room for thighs",
                  f"Between the seat and what is above it are {words.length(room)}.", words.length(room),
                  f"{words.length(least)} at least", case.source("table.knee.thigh"),
                  "" if good else "Raise the table, lower the seat, or leave the apron off there.",
                  f"{words.length(float(asked.values['knee_height']))} under the top − "
                  f"{words.length(float(asked.values['seat_height']))} seat; "
                  f"{words.held(room, least, None, TOLERANCE_MM)}")


def _places(asked: AskedCheck, case: Case) -> Iterator[Finding]:
    length = _value(asked, "length")
    if length is None:
        return
    words, sides = case.words, round(float(asked.values.get("sides", 2.0)))
    fit = int((length + TOLERANCE_MM) // case.limit("table.place.least"))
    good = int((length + TOLERANCE_MM) // case.limit("table.place.good"))
    yield Finding(asked.rule.rule, Level.NOTE if fit else Level.CAUTION, f"Places for {fit * sides}",
                  f"{fit} a side at {words.length(case.limit('table.place.least'))} each, {good} a side in "
                  f"comfort at {words.length(case.limit('table.place.good'))}.", words.length(length),
                  f"{words.length(case.limit('table.place.least'))} a person",
                  case.source("table.place.least", "table.place.good"),
                  "" if fit else "Make the table longer.",
                  f"{words.length(length)} / {words.length(case.limit('table.place.least'))} = {fit} whole a "
                  f"side, × {sides} sides")


RULE = Rule("table", check, needs={"height": "length"},
            may={"width": "length", "length": "length", "seat_height": "length", "knee_height": "length",
                 "bench_offset": "length", "sides": "number", "users": "text"}, words={"users": USERS},
            solids=False)
