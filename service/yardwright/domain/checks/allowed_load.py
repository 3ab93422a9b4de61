"""Allowed load: what a balcony, roof or deck may carry, against the piece full, with everybody on it.

load = (piece + wet soil + people)·g / area. Always runs where the site says what may be carried; on anything
raised, or that nobody knows, without a figure it is *not checked*: ask a licensed engineer. People: as many
as have room at 18 in each on the seats that the solids show (seats.py), 120 lbf for each foot, 250 lbf at the
least. Area: the plan of the piece, and 18 in before each seat where its people keep their feet and nobody
else stands. What is kept in boxes and on shelves comes on top: over the allowed load with it, a caution.
What single feet press into boards or a roof's skin is not judged. Units N, mm², kg, kN/m².
Sources: ICC 300 (120 lbf/ft; seen), IBC 1004.6 (18 in; memory), ground.foot_room (judgement); IRC R301.5
(40 lb/ft² of a residential deck; memory) is information only.
Limits of validity: even loads over the plan; what one foot presses, vibration and snow are not judged.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .footprint import footprint_mm2
from .rule import Case, Rule
from .seats import seats
from .soil_room import Soil, soil_of
from .surface import kind_of
from .words import GRAVITY

_KEPT = ("shelf", "box")     # uses of a shelf load where things are kept


@dataclass(frozen=True, slots=True)
class _On:
    """What stands on the ground: N each, and the mm² that it is spread over."""

    piece_n: float
    soil_n: float
    people: int
    people_n: float
    kept_n: float
    area_mm2: float
    soil: Soil | None

    @property
    def load(self) -> float:
        """N/mm² without what is kept in it."""
        return (self.piece_n + self.soil_n + self.people_n) / self.area_mm2


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One finding on anything raised or of a known strength; nothing on plain ground."""
    surface, allowed = case.site.ground.surface, case.site.ground.allowed_load_kn_m2
    if allowed is None and kind_of(surface) not in ("raised", "unknown"):
        return ()
    on = _on(case)
    if allowed is None:
        return (_unsaid(asked, case, on, surface),)
    return (_compared(asked, case, on, surface or "ground", allowed / 1000),)


def _on(case: Case) -> _On:
    pitch, soil = case.limit("structure.people_pitch"), soil_of(case)
    rows = seats(case)
    people = sum(row.people(pitch) for row in rows)
    seated = max(people * pitch * case.limit("structure.seat_line_load"), case.limit("structure.seat_load"))
    kept = sum(case.limit(f"structure.{use}_load") * footprint_mm2(case.member(k) for k in c.members)
               for c in case.piece.checks if c.rule.rule == "shelf load"
               and (use := c.rule.words.get("use", "shelf")) in _KEPT)
    feet = case.limit("ground.foot_room") * sum(row.length_mm for row in rows)
    return _On(case.piece.mass_kg * GRAVITY, soil.kg(case) * GRAVITY if soil else 0.0, people,
               seated if people else 0.0, kept, footprint_mm2(case.piece.members) + feet, soil)


def _told(case: Case, on: _On) -> str:
    words = case.words
    what = [f"the piece {words.mass(on.piece_n / GRAVITY)}"]
    if on.soil:
        what.append(f"{words.mass(on.soil_n / GRAVITY)} of wet soil")
    if on.people:
        what.append(f"{on.people} " + ("person " if on.people == 1 else "people ")
                    + words.mass(on.people_n / GRAVITY))
    total = words.mass((on.piece_n + on.soil_n + on.people_n) / GRAVITY)
    return (f"{', '.join(what)}: {total}, {words.area_load(on.load)} over the ground it takes"
            + (", feet of those who sit included." if on.people else "."))


def _worked(case: Case, on: _On) -> str:
    words, soil = case.words, on.soil
    sums = [f"piece {words.force(on.piece_n)}"]
    if soil:
        measured = " (measured off the boards; the template says less)" if soil.measured else ""
        density = words.density(case.limit(soil.density))
        sums.append(f"soil {words.volume(soil.volume_mm3)}{measured} × {density}")
    if on.people:
        sums.append(f"{on.people} × {words.length(case.limit('structure.people_pitch'))} of seat, "
                    f"{words.force(on.people_n)}")
    if on.kept_n:
        sums.append(f"kept in it up to {words.force(on.kept_n)}, not counted in the load")
    return f"{'; '.join(sums)}; area {words.plan(on.area_mm2)}"


def _source(case: Case, on: _On, *more: str) -> str:
    soil = (on.soil.density,) if on.soil else ()
    people = ("structure.seat_line_load", "structure.people_pitch", "ground.foot_room") if on.people else ()
    return case.source(*soil, *people, *more) or "geometry of the piece"


def _unsaid(asked: AskedCheck, case: Case, on: _On, surface: str) -> Finding:
    words, deck = case.words, case.limit("ground.deck_load")
    return Finding(
        asked.rule.rule, Level.NOT_CHECKED, f"Load on the {surface}: not checked",
        f"{_said(_told(case, on))} Nobody has said what the {surface} may carry. A residential deck is often "
        f"built for {words.area_load(deck)} over all (information only, {on.load / deck:.1f} times that "
        "here).", words.area_load(on.load), "not given", _source(case, on, "ground.deck_load"),
        "Ask a licensed engineer or the owner what it may carry"
        + (" before filling, or use a light mix and less depth." if on.soil else "."), _worked(case, on))


def _compared(asked: AskedCheck, case: Case, on: _On, surface: str, most: float) -> Finding:
    words = case.words
    room = most * on.area_mm2 - on.load * on.area_mm2
    level = Level.STOP if room < 0 else Level.CAUTION if room < on.kept_n else Level.OK
    title = {Level.STOP: "too heavy", Level.CAUTION: "little room for what is kept in it"}.get(
        level, "within what it may carry")
    detail = _said(_told(case, on))
    if level is Level.CAUTION:
        detail += f" Its boxes and shelves bear {words.force(on.kept_n)}; {words.force(room)} are left."
    return Finding(asked.rule.rule, level, f"Load on the {surface}: {title}", detail,
                   words.area_load(on.load), words.area_load(most),
                   f"{_source(case, on)}; allowed load: site", _mend(case, on, level, room),
                   _worked(case, on))


def _mend(case: Case, on: _On, level: Level, room: float) -> str:
    if level is Level.OK:
        return ""
    if level is Level.CAUTION:
        return f"Keep no more than {case.words.mass(room / GRAVITY)} in it and on it."
    if on.soil_n and on.soil_n + room > 0:
        return (f"Fill it no deeper than {(on.soil_n + room) / on.soil_n:.0%} of this, use a light mix, or "
                "stand it on the ground. Ask a licensed engineer.")
    return ("Choose a smaller piece, or stand it on the ground. Only a licensed engineer can say that it may "
            "carry more.")


def _said(words: str) -> str:
    return words[0].upper() + words[1:]


RULE = Rule("allowed load", check)
