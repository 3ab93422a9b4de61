"""Chest: a box with a lid that a child can get into is held to the toy-chest idea.

From 1.1 ft³ (0.031 m³) inside: the lid stays put at any angle by a support, air gets in when it is shut, no
latch that a child inside cannot open. A door falls on nobody; what keeps it shut is *not checked* where the
quote holds no latch. Any chest or door: the hinge side leaves no finger trap (hinge_side.py). Asked of every
room that a lid or door shuts (as_built.py); ``group`` names the lid or door.
Sources: ASTM F834/F963/F2598 and CPSC advice (seen in part, see data/limits/people.toml).
Limits of validity: what is kept inside and what stands before the openings is not seen.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .hinge_side import fingers
from .lid import is_door, stays_fitted
from .rule import Case, Rule

LATCHES = ("latch", "lock", "hasp", "catch")
ADVICE = "CPSC advice for chests with lids (seen)"


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """Findings on support, air, latch and fingers; of one too small to hold a child only on fingers."""
    volume, words = float(asked.values["inside_volume"]), case.words
    least, door = case.limit("people.chest_volume"), is_door(case.piece, asked.rule.words.get("group", ""))
    if volume <= 0.0:                    # nothing is shut by it
        return (fingers(asked, case),)
    if door and volume >= least:
        return (_opens(asked, case, volume), *_air(asked, case), fingers(asked, case))
    if volume < least:
        what = "Door" if door else "Chest"
        return (Finding(asked.rule.rule, Level.OK, f"{what}: too small to shut a child in",
                        f"It holds {words.volume(volume)}.", words.volume(volume), words.volume(least),
                        case.source("people.chest_volume"),
                        working=f"length × depth × height inside = {words.volume(volume)} < "
                        f"{words.volume(least)}"), fingers(asked, case))
    return (*_held_open(asked, case, volume), *_air(asked, case), *_latch(asked, case),
            fingers(asked, case), *_reach(asked, case))


def _opens(asked: AskedCheck, case: Case, volume: float) -> Finding:
    """A stop for a latch; not checked where nothing in the quote says what keeps the door shut."""
    if latched := next(_latch(asked, case), None):
        return latched
    room, least = case.words.volume(volume), case.words.volume(case.limit("people.chest_volume"))
    return Finding(
        asked.rule.rule, Level.NOT_CHECKED, "Door: whether a child inside can open it is not checked",
        f"A child fits behind it ({room}), and no latch of the quote says what keeps it shut.", room,
        f"under {least}, or opened from inside with a light push",
        f"{case.source('people.chest_volume')}; {ADVICE}",
        "Keep it shut by a magnet or a ball catch that a light push from inside opens.",
        f"room behind the door as its members bound it: {room}")


def _held_open(asked: AskedCheck, case: Case, volume: float) -> Iterator[Finding]:
    stays, words = stays_fitted(case.piece, asked.rule.words.get("group", "lid")), case.words
    good = stays > 0
    yield Finding(
        asked.rule.rule, Level.OK if good else Level.STOP,
        "Chest: the lid is held open" if good else "Chest: nothing stops the lid from falling on a child",
        f"It holds {words.volume(volume)}; above {words.volume(case.limit('people.chest_volume'))} a child "
        "fits inside. The support must hold the lid at any angle and need no adjusting.",
        f"{stays} stays", "1 stay at least", f"{case.source('people.chest_volume')}; {ADVICE}",
        "" if good else "Fit a spring or torsion lid stay that needs no adjusting.",
        f"length × depth × height inside = {words.volume(volume)} ≥ "
        f"{words.volume(case.limit('people.chest_volume'))}; stays that hold it: {stays}")


def _air(asked: AskedCheck, case: Case) -> Iterator[Finding]:
    words, least = case.words, case.limit("people.chest_vent")
    source = f"{case.source('people.chest_vent')}; {ADVICE}"
    if "vent_area" not in asked.values:
        yield Finding(asked.rule.rule, Level.NOT_CHECKED, "Chest: air not checked",
                      "The template does not say how much opening is left with the lid shut.", "",
                      f"{words.area(least)} at least", source, "Give vent_area in the check.")
        return
    area = float(asked.values["vent_area"])
    good = area >= least
    yield Finding(asked.rule.rule, Level.OK if good else Level.STOP,
                  "Chest: air gets in with the lid shut" if good else "Chest: no air with the lid shut",
                  "Openings that a wall or the ground cannot block.", words.area(area),
                  f"{words.area(least)} at least", source,
                  "" if good else "Leave a gap under the lid or bore vent holes at both ends.",
                  f"gaps between the boards around it = {words.area(area)} {'≥' if good else '<'} "
                  f"{words.area(least)}")


def _latch(asked: AskedCheck, case: Case) -> Iterator[Finding]:
    latches = [h.name for h in case.piece.hardware if h.kind in LATCHES]
    if latches:
        yield Finding(asked.rule.rule, Level.STOP, "Chest: a latch can shut a child in",
                      f"{', '.join(latches)} on a chest that a child fits into.", "a latch", "none", ADVICE,
                      "Leave the latch off, or fit one that opens from inside with a light push.",
                      f"{len(latches)} in the piece's hardware")


def _reach(asked: AskedCheck, case: Case) -> Iterator[Finding]:
    deep = float(asked.values.get("inside_depth") or 0.0)
    most = case.limit("people.reach_in")
    if deep > most:
        yield Finding(asked.rule.rule, Level.NOTE, "Chest: deep to empty",
                      f"Inside it is {case.words.length(deep)} deep.", case.words.length(deep),
                      f"{case.words.length(most)} at most", case.source("people.reach_in"),
                      "Raise the floor or add a tray.",
                      f"top of the box to its floor: {case.words.held(deep, None, most)}")


RULE = Rule("chest", check, needs={"inside_volume": "volume"},
            may={"vent_area": "area", "hinge_gap": "length", "inside_depth": "length"}, words={"group": ()})
