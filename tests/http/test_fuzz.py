"""Schemathesis asks every call with data made from the contract, good and bad: never a 500, as published.

An independent reading of openapi.json (JSON Schema 2020-12) judges each answer's status, media type and
body. A sound shape may still be refused for its meaning (422), so acceptance of good data is not judged;
ignored_auth is not, because without keys on loopback every caller has the shop's scope.
"""

from __future__ import annotations

import json
from pathlib import Path

import schemathesis
from hypothesis import HealthCheck, settings
from schemathesis.checks import CHECKS

from yardwright.http import create_app
from yardwright.wiring import load_shop

CONTRACT = json.loads((Path(__file__).parents[2] / "openapi" / "openapi.json").read_text(encoding="utf-8"))
# The examples are the seed jobs, which tests/scenarios sends.
del CONTRACT["paths"]["/v1/quotes"]["post"]["requestBody"]["content"]["application/json"]["examples"]
NOT_JUDGED = ("positive_data_acceptance", "ignored_auth")
contract = schemathesis.openapi.from_dict(CONTRACT)
contract.app = create_app(load_shop("demo_shop"))


@contract.parametrize()
@settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)
def test_every_call_keeps_the_contract(case: schemathesis.Case) -> None:
    case.call_and_validate(excluded_checks=[c for c in CHECKS.get_all() if c.__name__ in NOT_JUDGED])
