"""Every seed scenario through the pipeline, HTTP and the command line, to a paper that can be read."""

from __future__ import annotations

import json
import shutil
import subprocess
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from pypdf import PdfReader

from yardwright import cli
from yardwright.domain.shop import Shop
from yardwright.http import create_app
from yardwright.wiring import load_shop

FOLDER = Path(__file__).parents[2] / "seed_scenarios"
GRAVITY = ["stop", "caution", "not checked", "note", "ok"]
SCENARIOS = sorted(path.name for path in FOLDER.iterdir() if path.is_dir())


def read(scenario: str, name: str) -> Any:
    return json.loads((FOLDER / scenario / name).read_text(encoding="utf-8"))


def shop_of(scenario: str) -> str:
    return str(read(scenario, "expected.json").get("shop", "demo_shop"))


@pytest.fixture(scope="module")
def apps() -> dict[str, Flask]:
    shops: dict[str, Shop] = {name: load_shop(name) for name in ("demo_shop", "demo_shop_metric")}
    return {name: create_app(shop) for name, shop in shops.items()}


@pytest.fixture(scope="module")
def answers(apps: dict[str, Flask]) -> dict[str, Any]:
    """The answer to each scenario's job, asked once over the app."""
    found = {}
    for scenario in SCENARIOS:
        answer = apps[shop_of(scenario)].test_client().post("/v1/quotes", json=read(scenario, "job.json"))
        assert answer.status_code == 200, answer.text
        found[scenario] = answer.json
    return found


def at(value: Any, path: str) -> Any:
    """The value at "items.0.overall.length.mm"; "len" counts."""
    for step in path.split("."):
        value = len(value) if step == "len" else value[int(step)] if isinstance(value, list) else value[step]
    return value


@pytest.mark.parametrize("scenario", SCENARIOS)
def test_the_figures_are_the_expected_ones(scenario: str, answers: dict[str, Any]) -> None:
    for path, wanted in read(scenario, "expected.json")["figures"].items():
        found = at(answers[scenario], path)
        if isinstance(wanted, dict):
            assert float(found) == pytest.approx(wanted["value"], abs=wanted["within"]), path
        else:
            assert found == wanted, path


@pytest.mark.parametrize("scenario", SCENARIOS)
def test_the_findings_are_the_expected_ones(scenario: str, answers: dict[str, Any]) -> None:
    answer = answers[scenario]
    of_items = [finding for item in answer["items"] for finding in item["findings"]]
    worst: dict[str, str] = {}
    for finding in sorted([*answer["findings"], *of_items], key=lambda f: GRAVITY.index(f["level"])):
        worst.setdefault(finding["rule"], finding["level"])
    for rule, level in read(scenario, "expected.json")["findings"].items():
        assert worst.get(rule) == level, (rule, worst)


@pytest.mark.parametrize("scenario", SCENARIOS)
def test_parts_and_packs_are_counted_as_by_hand(scenario: str, answers: dict[str, Any]) -> None:
    expected, answer = read(scenario, "expected.json"), answers[scenario]
    for name, count in expected.get("counts", {}).items():
        found = sum(p["count"] for item in answer["items"] for p in item["parts"] if p["name"] == name)
        assert found == count, name
    for code, packs in expected.get("packs", {}).items():
        found = [line["packs"] for line in answer["hardware"] if line["code"].startswith(code)]
        assert found == [packs], code


@pytest.mark.parametrize("scenario", SCENARIOS)
def test_lines_and_tax_add_up_to_the_total(scenario: str, answers: dict[str, Any]) -> None:
    from decimal import Decimal

    price = answers[scenario]["price"]
    lines = sum(Decimal(line["amount"]) for line in price["lines"])
    added = sum(Decimal(tax["amount"]) for tax in price["tax"] if not tax["included"])
    assert lines + added == Decimal(price["total"])
    for line in price["lines"]:
        assert Decimal(line["unit"]) * line["quantity"] == Decimal(line["amount"]), line


@pytest.mark.parametrize("scenario", SCENARIOS)
def test_the_same_job_gives_the_same_answer(scenario: str, apps: dict[str, Flask],
                                            answers: dict[str, Any]) -> None:
    again = apps[shop_of(scenario)].test_client().post("/v1/quotes", json=read(scenario, "job.json"))
    assert again.json == answers[scenario]


@pytest.mark.parametrize("scenario", SCENARIOS)
def test_http_gives_a_paper_that_can_be_read(scenario: str, apps: dict[str, Flask],
                                             answers: dict[str, Any]) -> None:
    client = apps[shop_of(scenario)].test_client()
    job, as_pdf = read(scenario, "job.json"), {"Accept": "application/pdf"}
    paper = client.post("/v1/quotes", json=job, headers=as_pdf)
    assert paper.status_code == 200, paper.text
    said = text_of(paper.data)
    expect_on_paper(said, answers[scenario])
    again = client.post("/v1/papers", json={"quote": answers[scenario]})
    assert again.status_code == 200, again.text
    expect_on_paper(text_of(again.data), answers[scenario])


def expect_on_paper(said: str, answer: dict[str, Any]) -> None:
    for word in (answer["reference"], answer["customer"]["name"], "DEMONSTRATION PRICES",
                 answer["shop"]["name"], answer["items"][0]["template_name"]):
        assert word in said, word
    plain = said.translate({ord(mark): None for mark in ",\u202f\u00a0"})
    assert answer["price"]["total"] in plain, said[:3000]


def text_of(pdf: bytes) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(BytesIO(pdf)).pages).split())


@pytest.mark.parametrize("scenario", SCENARIOS)
def test_the_command_line_writes_the_same_quote(scenario: str, answers: dict[str, Any], tmp_path: Path,
                                                capsys: pytest.CaptureFixture[str]) -> None:
    paper, answer, sheet = (tmp_path / name for name in ("quote.pdf", "quote.json", "sheet.pdf"))
    code = cli.main(["--shop", shop_of(scenario), "quote", str(FOLDER / scenario / "job.json"),
                     "-o", str(paper), "-o", str(answer), "--shop-sheet", str(sheet)])
    assert code == 0, capsys.readouterr().err
    assert json.loads(answer.read_text(encoding="utf-8")) == answers[scenario]
    expect_on_paper(text_of(paper.read_bytes()), answers[scenario])
    assert answers[scenario]["items"][0]["parts"][0]["mark"] in text_of(sheet.read_bytes())
    assert answers[scenario]["price"]["total"] in capsys.readouterr().out


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="no pdftotext: install poppler-utils")
@pytest.mark.parametrize("scenario", SCENARIOS[:1])
def test_another_reader_reads_the_paper_too(scenario: str, apps: dict[str, Flask], answers: dict[str, Any],
                                            tmp_path: Path) -> None:
    paper = tmp_path / "quote.pdf"
    client = apps[shop_of(scenario)].test_client()
    paper.write_bytes(client.post("/v1/papers", json={"quote": answers[scenario]}).data)
    said = subprocess.run(["pdftotext", str(paper), "-"], capture_output=True, text=True, check=True).stdout
    expect_on_paper(" ".join(said.split()), answers[scenario])


@pytest.mark.parametrize("scenario", SCENARIOS)
def test_the_notes_show_at_least_three_hand_calculations(scenario: str) -> None:
    notes = (FOLDER / scenario / "notes.md").read_text(encoding="utf-8")
    assert notes.count("\n### ") >= 3, "each hand calculation has a heading of its own"
