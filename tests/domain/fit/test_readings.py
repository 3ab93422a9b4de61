"""Readings that contradict each other are told, readings that merely differ are not."""

from __future__ import annotations

from typing import Any

import pytest

import fit_cases
from yardwright.domain.fit import site_findings
from yardwright.domain.measure import Writer

SHOP = fit_cases.shop()


@pytest.mark.parametrize("case", fit_cases.VECTORS["sites"], ids=lambda c: str(c["name"]))
def test_a_site_is_found_as_the_shared_vectors_say(case: dict[str, Any]) -> None:
    found = site_findings(fit_cases.site(case["site"]), SHOP, Writer("in"))
    assert [[str(f.level), f.title] for f in found] == case["findings"]


@pytest.mark.parametrize("case", [c for c in fit_cases.VECTORS["sites"] if c["findings"]],
                         ids=lambda c: str(c["name"]))
def test_a_contradiction_says_what_was_read_the_limit_its_source_and_what_to_do(case: dict[str, Any]) -> None:
    for f in site_findings(fit_cases.site(case["site"]), SHOP, Writer("mm")):
        assert f.measured and f.source and f.mend.endswith(".") and f.rule == "readings"
        assert "in" not in f.measured.split(), "lengths follow the job's units"


def test_the_two_readings_that_disagree_are_named_in_the_jobs_units() -> None:
    site = fit_cases.site({"kind": "between walls", "walls": [
        {"side": "back", "readings": [{"value": "48 in"}, {"value": "49 in"}]}]})
    (finding,) = site_findings(site, SHOP, Writer("in"))
    assert finding.detail == "Back wall: two readings differ by 1 in."
    assert finding.mend == "Measure the back wall again, and say at what height and depth."
