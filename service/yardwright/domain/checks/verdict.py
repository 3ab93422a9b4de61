"""A member judged under its load cases, and the finding that says so with its mend.

Bending or shear over what is allowed is a ``stop``; too much sag is a ``caution``.
Sag allowed: a share of the span (L/180 for seats) and never more than a set amount; an overhang twice the
share of its own length. Sources: data/limits/structure.toml.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..finding import Finding, Level
from ..piece.model import Member, Vector
from .loaded import Bar, Worst, bar, lies_flat, moving, share_that_serves, spread
from .rule import Case
from .strength import Strength, strength


@dataclass(frozen=True, slots=True)
class Loading:
    """One load case. ``line``: N/mm all along; else ``force_n`` over ``over_mm`` anywhere."""

    name: str                    # "its share of a sitter", as the working says it
    source: str
    force_n: float = 0.0
    over_mm: float = 0.0
    line: float = 0.0
    sharing: bool = False        # C_r applies
    sags: bool = True            # the sag limit applies
    duration: str = "people"


@dataclass(frozen=True, slots=True)
class SagLimit:
    """Greatest sag: a share of the span, and an amount in mm."""

    share: float
    most_mm: float

    def of(self, worst: Worst) -> float:
        """The sag allowed where it is worst."""
        share = 2 * self.share if worst.sag_overhangs else self.share
        return min(share * worst.sag_span_mm, self.most_mm)


@dataclass(frozen=True, slots=True)
class Verdict:
    """A member under the load case that uses it most."""

    member: Member
    beam: Bar
    loading: Loading
    allowed: Strength
    worst: Worst
    used: float                  # 1.0 = bending or shear fully used, over all load cases
    sagged: float                # sag over its limit, over the load cases with a sag limit
    sag: Worst                   # the one that sags most
    sag_limit_mm: float
    serving_share: float         # spans this share as long would serve; 1 where they do
    cut: str = ""                # where a notch or taper makes it weaker than its blank

    @property
    def level(self) -> Level:
        """Too weak is a stop, too springy a caution."""
        if self.used > 1.0:
            return Level.STOP
        return Level.CAUTION if self.sagged > 1.0 else Level.OK


def sag_limit(case: Case, kind: str = "deflection") -> SagLimit:
    """The limit for what people sit on (``deflection``), lean on (``back``) or soil presses (``bulge``)."""
    return SagLimit(case.limit(f"structure.{kind}_share"), case.limit(f"structure.{kind}_most"))


def judge(case: Case, member: Member, supports_mm: Sequence[float], push: Vector,
          loadings: Sequence[Loading], limit: SagLimit, settling: float = 1.0) -> Verdict:
    """The member under every load case; needs two supports.

    ``settling`` raises what a member on three or more supports suffers when some of them give way.
    """
    settling = settling if len(supports_mm) > 2 else 1.0
    beam = bar(member, supports_mm, push)
    flat = lies_flat(beam)
    allowed = [strength(case, member, flat, load.sharing, load.duration) for load in loadings]
    worsts = [_worst(beam, load, a, settling) for load, a in zip(loadings, allowed, strict=True)]
    uses = [w.used(a) for w, a in zip(worsts, allowed, strict=True)]
    top = max(range(len(uses)), key=uses.__getitem__)
    sags = [(w.sag_mm / max(limit.of(w), 1e-9), w) for w, load in zip(worsts, loadings, strict=True)
            if load.sags] or [(0.0, worsts[top])]
    sagged, sag = max(sags, key=lambda s: s[0])
    serving = 1.0
    if uses[top] > 1.0 or sagged > 1.0:
        serving = share_that_serves(lambda share: _serves(beam.scaled(share), loadings, allowed, limit,
                                                            settling))
    return Verdict(member, beam, loadings[top], allowed[top], worsts[top], uses[top], sagged, sag,
                   limit.of(sag), serving)


def _worst(beam: Bar, load: Loading, allowed: Strength, settling: float) -> Worst:
    if load.line:
        return spread(beam, load.line * settling, allowed.elasticity)
    return moving(beam, load.force_n * settling, load.over_mm, allowed.elasticity)


def _serves(beam: Bar, loadings: Sequence[Loading], allowed: Sequence[Strength], limit: SagLimit,
            settling: float) -> bool:
    for load, a in zip(loadings, allowed, strict=True):
        worst = _worst(beam, load, a, settling)
        if worst.used(a) > 1.0 or (load.sags and worst.sag_mm > limit.of(worst)):
            return False
    return True


def told(case: Case, rule: str, what: str, verdict: Verdict) -> Finding:
    """The verdict as a finding; ``what`` names the member in the sentence ("Seat board")."""
    words, v = case.words, verdict
    title = {Level.STOP: f"{what}: too weak for its load", Level.CAUTION: f"{what}: springy under its load",
             Level.OK: f"{what}: strong enough"}[v.level]
    span = (f"overhanging {words.length(v.beam.longest_overhang_mm)}"
            if v.beam.longest_overhang_mm > v.beam.longest_span_mm
            else f"spanning {words.length(v.beam.longest_span_mm)}")
    detail = (f"{v.member.key}, {words.length(v.beam.across_mm)} × {words.length(v.beam.deep_mm)} deep, "
              f"{span} on {len(v.beam.supports_mm)} supports found where members touch; "
              f"worst under {v.loading.name}" + (f"; {v.cut}." if v.cut else "."))
    measured = (f"bending {words.stress(v.worst.bending)}, shear {words.stress(v.worst.shear)}, "
                f"sag {words.fine(v.sag.sag_mm)}")
    limit = (f"bending {words.stress(v.allowed.bending)}, shear {words.stress(v.allowed.shear)}, "
             f"sag {words.fine(v.sag_limit_mm)}")
    working = (f"supports at {', '.join(words.length(s) for s in v.beam.supports_mm)}; "
               f"M = {words.turning(v.worst.moment_nmm)}, S = b·h²/6; f_b = M/S = "
               f"{words.stress(v.worst.bending)} = {v.used:.0%} used; {v.allowed.working}")
    return Finding(rule, v.level, title, detail, measured, limit,
                   f"{v.loading.source}; {v.allowed.source}", mend(case, v), working)


def all_strong(case: Case, rule: str, verdicts: Sequence[Verdict]) -> Finding:
    """One finding for members that all carry their load: the one used most, the others in the working."""
    top = max(verdicts, key=lambda v: max(v.used, v.sagged))
    most = told(case, rule, top.member.name, top)
    others = "; ".join(f"{v.member.name} {max(v.used, v.sagged):.0%}" for v in verdicts if v is not top)
    also = f" {len(verdicts)} kinds of members judged, this one is used most." if others else ""
    also += " Screws and glue are not judged here."
    return replace(most, title=f"{rule[0].upper()}{rule[1:]}: carried", detail=most.detail + also,
                   working=most.working + (f"; others used: {others}" if others else ""))


def mend(case: Case, verdict: Verdict) -> str:
    """What would mend it: closer supports, or a deeper section (f ~ 1/h², sag ~ 1/h³)."""
    v, words = verdict, case.words
    if v.level is Level.OK:
        return ""
    if v.cut and v.serving_share >= 1.0:
        return f"Cut less away: it is {v.cut}; or take a deeper or stronger board."
    deeper = v.beam.deep_mm * max(max(v.used, 1.0) ** 0.5, max(v.sagged, 1.0) ** (1 / 3))
    thicker = f"make it {words.length(deeper + 0.8)} deep"
    if v.serving_share <= 0.0:
        return f"{thicker[0].upper()}{thicker[1:]}, or use a stronger timber or grade."
    longest = max(v.beam.longest_span_mm, v.beam.longest_overhang_mm) * v.serving_share
    return f"Add bearers: supports no further apart than {words.length(longest - 0.8)}; or {thicker}."


def unsupported(rule: str, boards: Sequence[Member], found: int) -> Finding:
    """Loaded members of one name with nothing, or one thing only, to lie on; ``found`` of the first."""
    on, first = "one place only" if found else "nothing that stands", boards[0]
    more = f", and {len(boards) - 1} more alike" if len(boards) > 1 else ""
    return Finding(rule, Level.STOP, f"{first.name}: not carried",
                   f"{first.key} lies on {on}: no second support was found where members touch{more}.",
                   f"{found} support" + ("s" if found != 1 else ""), "2 supports at least",
                   "geometry of the piece", "Let it lie on a bearer, ledger or panel edge at two places at "
                   "least, touching it.", f"places where {first.key} touches something that stands: "
                   f"{found}", customer=False)
