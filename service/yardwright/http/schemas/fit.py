"""The fit of a piece in the measured space, and findings."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from marshmallow import Schema, fields

from ...domain.finding import Finding, Level
from ..fields import Made, Many, Picked, Text, Truth, Words
from ..quantities import Amount, Written, WrittenLengths, written

if TYPE_CHECKING:
    from ...domain.fit import Fit

WAY_IN = "way in"


class MendOut(Schema):
    """What to change of the item, what the job's total then differs by ("-12.00" is cheaper), and what the
    same check then finds."""

    dimensions = Made(lambda m: {name: written(nm) for name, nm in m.dimensions}, WrittenLengths.shape)
    choices = Made(lambda m: dict(m.choices), Words.shape)
    text = Text(300)
    price_difference = Amount(attribute="difference")
    after = Text()
    measured = Text()
    limit = Text()


class FindingOut(Schema):
    rule = Text()
    level = Made(lambda f: str(f.level), {"type": "string", "enum": [str(level) for level in Level]})
    title = Text()
    detail = Text(2000)
    measured = Text()
    limit = Text()
    source = Text(400)
    mend = Text(1200)
    mends = Many(fields.Nested(MendOut))
    searched = Made(lambda f: f.searched, {
        "type": "string", "enum": ["", "found", "nothing", "stopped"],
        "description": "Whether a change that mends it was looked for: not at all, and found, none there is "
                       "within the template's sizes and choices, or the search ended before it was done."})
    working = Text(2000)


class ClearanceOut(Schema):
    side = Text()
    clearance = Written(attribute="clearance_nm")
    needed = Written(attribute="needed_nm")
    binding = Text(200)


class Stretch(Schema):
    """Where along the back wall the piece's left end can stand."""

    start = Written(data_key="from")
    end = Written(data_key="to")


class WayIn(Schema):
    fits = Truth()
    detail = Text(6000)


class QuotedFitOut(Schema):
    """How an item of a quote fits; what was found about it is among the item's findings."""

    fits = Truth()
    verdict = Text(2000)
    clearances = Many(fields.Nested(ClearanceOut))
    positions = Picked(Stretch, lambda f: [{"start": a, "end": b} for a, b in f.positions], many=True)
    largest = Made(lambda f: {name: written(nm) if nm else None for name, nm in f.largest_nm.items()},
                   {"type": "object", "additionalProperties": {"anyOf": [Written.shape, {"type": "null"}]}})
    best = Made(lambda f: {name: written(nm) for name, nm in f.best_nm.items()} if f.best_nm else None,
                {"anyOf": [WrittenLengths.shape, {"type": "null"}]})
    uncertainty = Written(attribute="uncertainty_nm")
    way_in = Picked(WayIn, lambda f: way_in(f))


class FitOut(QuotedFitOut):
    """The same as an answer of its own, with the sizes that were tried."""

    dimensions = WrittenLengths()
    findings = Many(fields.Nested(FindingOut))


def way_in(fit: Fit) -> dict[str, Any]:
    """Whether it goes in whole: what was found of the narrow places that it does not pass, else of all."""
    found = [finding for finding in fit.findings if finding.rule == WAY_IN]
    failed = [finding for finding in found if finding.level != Level.OK]
    shown = failed or found
    return {"fits": not failed, "detail": " ".join(finding.detail for finding in shown)}



def asked_sizes(dimensions_nm: dict[str, int]) -> dict[str, Any]:
    """The sizes that were tried, beside the answer."""
    return {"dimensions": {name: written(nm) for name, nm in dimensions_nm.items()}}


def for_customer(findings: tuple[Finding, ...]) -> list[Finding]:
    """What the customer is told; a ``stop``, and what was not checked, is never hidden."""
    return [finding for finding in findings
            if finding.customer or finding.level in (Level.STOP, Level.NOT_CHECKED)]


def for_shop(findings: tuple[Finding, ...]) -> list[Finding]:
    """The rest, which concerns the workshop alone."""
    return [finding for finding in findings if finding not in for_customer(findings)]
