"""Seat: height, depth, slope and back for the people who will sit there, and how many have room.

Bounds by user (adult, older, child, accessible) from bench guides and the 2010 ADA Standards 903, which bind
public benches only and are a good-practice target in a yard. Room: whole persons in length / width each;
18 in a person fits, 24 in is comfortable; a narrower seat is for one, a caution for adults below 16 in.
Lengths in mm.
Limits of validity: hard seats without a cushion, people of common size. Sources: bench guides, 2010 ADA 903
(seen).
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .rule import Case, Rule
from .seats import people_along

USERS = ("adult", "older", "child", "accessible")
STEP_MM = 1.0                # a working step is not a fault
_MEASURED = {"height": "ground to the top of the seat: ", "depth": "front of the seat to its back: "}


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One finding each for height, depth, back and room, as far as the template gives them."""
    users = str(asked.values.get("users") or asked.rule.words.get("users", "adult"))
    if users not in USERS:
        users = "adult"
    return (*_within(asked, case, users), *_back(asked, case, users), *_room(asked, case, users))


def _within(asked: AskedCheck, case: Case, users: str) -> Iterator[Finding]:
    for what in ("height", "depth"):
        if what not in asked.values:
            continue
        value = float(asked.values[what])
        name = f"people.seat_{what}.{users}"
        least, most = case.limit(f"{name}_least"), case.limit(f"{name}_most")
        good = least - STEP_MM <= value <= most + STEP_MM
        edge = what == "depth" and value > most and not asked.values.get("back_top") and users != "accessible"
        climbs = what == "height" and value > case.limit("people.seat_height.climb")
        words = case.words
        yield Finding(
            asked.rule.rule, Level.OK if good else Level.NOTE if edge else Level.CAUTION,
            f"Seat {what}: " + ("suits " if good else "unusual for ") + _people(users),
            f"The seat is {words.length(value)} " + ("high." if what == "height" else "deep.")
            + (" Nobody sits down on it without climbing." if climbs else "")
            + (" Without a back one sits on its edge, from either side." if edge else ""),
            words.length(value), f"{words.length(least)} to {words.length(most)}",
            case.source(f"{name}_least", f"{name}_most"),
            "" if good else f"Choose between {words.length(least)} and {words.length(most)}, or say who sits "
            "here.", _MEASURED[what] + words.held(value, least, most, STEP_MM))


def _people(users: str) -> str:
    return {"adult": "adults", "older": "older people", "child": "children of 5 to 10",
            "accessible": "an accessible bench"}[users]


def _back(asked: AskedCheck, case: Case, users: str) -> Iterator[Finding]:
    top = float(asked.values.get("back_top") or 0.0)
    if top <= 0.0:
        return
    name = "people.back_top.accessible_least" if users == "accessible" else "people.back_top.least"
    words, least = case.words, case.limit(name)
    rake = float(asked.values.get("rake") or 0.0)
    most_rake = case.limit("people.back_rake.most")
    good = (top >= least - STEP_MM or users == "child") and rake <= most_rake
    gap, name_gap = float(asked.values.get("back_gap") or 0.0), "people.back_gap.most"
    if users == "accessible":
        name_gap = "people.back_gap.accessible_most"
    if gap > case.limit(name_gap) + STEP_MM:
        yield Finding(asked.rule.rule, Level.NOTE, "Back: begins high above the seat",
                      f"The gap under the back is {words.length(gap)}.", words.length(gap),
                      f"{words.length(case.limit(name_gap))} at most", case.source(name_gap),
                      "Set the lowest part of the back lower.",
                      f"seat to the back's lowest board: {words.held(gap, None, case.limit(name_gap))}")
    yield Finding(
        asked.rule.rule, Level.OK if good else Level.NOTE,
        "Back: supports" if good else "Back: low or far back",
        f"The back's top is {words.length(top)} above the seat, raked {rake:g}° from upright.",
        f"{words.length(top)}, {rake:g}°", f"{words.length(least)} at least, {most_rake:g}° at most",
        case.source(name, "people.back_rake.most"),
        "" if good else "Raise the back's top or stand it steeper.",
        f"seat to the back's top: {words.held(top, least, None, STEP_MM)}"
        + (" (not asked of children)" if users == "child" and top < least - STEP_MM else "")
        + f"; leaning back {rake:g}° {'≤' if rake <= most_rake else '>'} {most_rake:g}°")


def _room(asked: AskedCheck, case: Case, users: str) -> Iterator[Finding]:
    length = float(asked.values.get("length") or 0.0)
    if length <= 0.0:
        return
    pitch, good = case.limit("structure.people_pitch"), case.limit("structure.people_pitch_good")
    yield _for_many(asked, case, length, pitch, good) if length >= pitch else (
        _for_one(asked, case, users, length, pitch))
    words = case.words
    least = case.limit("people.accessible_length")
    if users == "accessible" and length < least - STEP_MM:
        yield Finding(asked.rule.rule, Level.CAUTION, "Short for an accessible bench",
                      "An accessible bench has room to slide along from a wheelchair.", words.length(length),
                      f"{words.length(least)} at least", case.source("people.accessible_length"),
                      f"Make it {words.length(least)} long.",
                      f"length of the seat: {words.held(length, least, None)}")


def _for_many(asked: AskedCheck, case: Case, length: float, pitch: float, good: float) -> Finding:
    words, fit, comfortable = case.words, people_along(length, pitch), people_along(length, good)
    at_ease = (f", {comfortable} in comfort at {words.length(good)}." if comfortable else
               f"; in comfort from {words.length(good)}.")
    return Finding(
        asked.rule.rule, Level.NOTE, f"Room for {fit} " + ("person" if fit == 1 else "people"),
        f"{fit} at {words.length(pitch)} each{at_ease}", words.length(length),
        f"{words.length(pitch)} a person",
        case.source("structure.people_pitch", "structure.people_pitch_good"),
        working=f"{words.length(length)} / {words.length(pitch)} = {fit} whole; / {words.length(good)} = "
        f"{comfortable} in comfort")


def _for_one(asked: AskedCheck, case: Case, users: str, length: float, pitch: float) -> Finding:
    """A seat for one: a caution where it is narrower than an adult's hips."""
    words, least = case.words, case.limit("people.seat_width.least")
    narrow = users != "child" and length < least - STEP_MM
    return Finding(
        asked.rule.rule, Level.CAUTION if narrow else Level.NOTE,
        "Narrow for one adult" if narrow else "Room for one, snug",
        f"The seat is {words.length(length)} wide; {words.length(pitch)} is the usual width for one.",
        words.length(length), f"{words.length(least)} at least",
        case.source("people.seat_width.least", "structure.people_pitch"),
        f"Make it {words.length(pitch)} wide between the arms." if narrow else "",
        f"width of the seat: {words.held(length, least, None, STEP_MM)}"
        + (" (not asked of children)" if users == "child" and length < least - STEP_MM else ""))


RULE = Rule("seat", check, needs={"height": "length"},
            may={"depth": "length", "length": "length", "back_top": "length", "rake": "angle",
                 "back_gap": "length", "users": "text"},
            words={"users": USERS}, solids=False)
