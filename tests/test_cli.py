"""The command line: what it writes, and what it says when it cannot."""

from __future__ import annotations

import json
import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
import requests

from yardwright import cli
from yardwright.http.serve import unsafe

ROOT = Path(__file__).parents[1]
JOB = ROOT / "seed_scenarios" / "01-downpipe-and-gate" / "job.json"
TEMPLATES = ROOT / "service" / "yardwright" / "data" / "templates"


def refused(job: Path, capsys: pytest.CaptureFixture[str], *more: str) -> str:
    assert cli.main([*more, "quote", str(job), "-o", str(job.with_suffix(".pdf"))]) == 1
    assert not job.with_suffix(".pdf").exists()
    return capsys.readouterr().err


def test_a_job_that_cannot_be_is_refused_with_its_pointers(tmp_path: Path,
                                                           capsys: pytest.CaptureFixture[str]) -> None:
    job = with_template(tmp_path / "job.json", "storage-bench", {"length": 44})
    assert '/items/0/dimensions/length: a bare number: "44 in" or "44 mm"?' in refused(job, capsys)
    job.write_text('{"units": ')
    assert "acceptable JSON" in refused(job, capsys)
    assert "there is no template" in refused(with_template(job, "storage-bnech"), capsys)


def with_template(job: Path, template: str, dimensions: object = None) -> Path:
    item = {"template": template, "dimensions": dimensions or {}}
    job.write_text(json.dumps({"units": "in", "items": [item]}))
    return job


def test_a_file_that_is_not_there_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "nothing.json" in refused(tmp_path / "nothing.json", capsys)
    assert "demo_shop_metric" in refused(with_template(tmp_path / "j.json", "x"), capsys, "--shop", "nowhere")


def test_a_held_paper_is_not_written_but_its_json_is(tmp_path: Path,
                                                     capsys: pytest.CaptureFixture[str]) -> None:
    asked = json.loads(JOB.read_text(encoding="utf-8"))
    asked["site"]["ground"]["drop_behind"] = "40 in"
    job = tmp_path / "job.json"
    job.write_text(json.dumps(asked))
    assert "drop behind" in refused(job, capsys)
    assert cli.main(["quote", str(job), "-o", str(tmp_path / "answer.json")]) == 0
    assert json.loads((tmp_path / "answer.json").read_text(encoding="utf-8"))["held_by"] == ["drop behind"]


def test_the_lists_come_as_csv_by_name(tmp_path: Path) -> None:
    cuts, shopping = tmp_path / "cuts.csv", tmp_path / "shopping.csv"
    assert cli.main(["quote", str(JOB), "-o", str(cuts), "--shopping-list", str(shopping)]) == 0
    assert any("Seat board" in line for line in cuts.read_text(encoding="utf-8").splitlines())
    assert any("WRC-" in line for line in shopping.read_text(encoding="utf-8").splitlines())


def test_check_passes_a_good_template_and_fails_a_bad_one(tmp_path: Path,
                                                          capsys: pytest.CaptureFixture[str]) -> None:
    good = TEMPLATES / "planter-box.toml"
    assert cli.main(["check", str(good), "--points", "2"]) == 0
    assert "0 faults" in capsys.readouterr().out
    text = good.read_text(encoding="utf-8")
    clashing = tmp_path / "clashing.toml"
    clashing.write_text(text.replace('from = ["in_x", "in_y", "lift"]', 'from = ["out", "out", "lift"]')
                            .replace('to = ["in_x", "in_y", "top"]', 'to = ["out", "out", "top"]'))
    drawn = tmp_path / "worst.svg"
    assert cli.main(["check", str(clashing), "--points", "1", "--drawing", str(drawn)]) == 1
    told = capsys.readouterr().out
    assert "Corner post" in told and re.search(r"clashing\.toml:\d+  ", told)
    assert re.search(r"51 points tried: 2 as offered, 8 corners with 6 of \d+ combinations of choices each, "
                     r"1 between; \d+\.\d s", told)
    assert "Corner post" in drawn.read_text(encoding="utf-8")
    misspelt = tmp_path / "misspelt.toml"
    misspelt.write_text(text.replace('board = "post"', 'bord = "post"', 1))
    assert cli.main(["check", str(misspelt)]) == 1
    assert "misspelt.toml:" in capsys.readouterr().err


def test_a_wrong_command_line_is_a_2() -> None:
    with pytest.raises(SystemExit) as stopped:
        cli.main(["quote"])
    assert stopped.value.code == 2


def test_serve_prints_its_address_answers_and_stops() -> None:
    from conftest import free_port

    port = str(free_port())
    environment = {**os.environ, "PORT": port, "HOST": "127.0.0.1"}
    service = subprocess.Popen([sys.executable, "-m", "yardwright", "serve"], env=environment, text=True,
                               stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    try:
        assert service.stdout is not None
        assert f"http://127.0.0.1:{port}/" in service.stdout.readline()
        answer = until_it_answers(f"http://127.0.0.1:{port}/healthz")
        assert answer.json()["status"] == "ok"
        page = requests.get(f"http://127.0.0.1:{port}/", timeout=10)
        assert page.status_code == 200 and "<html" in page.text
    finally:
        service.send_signal(signal.SIGTERM)
        _, complaints = service.communicate(timeout=20)
    assert service.returncode == 0, complaints


def test_serve_says_what_is_missing_before_others_may_call(monkeypatch: pytest.MonkeyPatch) -> None:
    assert unsafe("127.0.0.1") == []
    said = " ".join(unsafe("0.0.0.0"))
    assert "YARDWRIGHT_SHOP_KEY" in said and "YARDWRIGHT_SEAL_KEY" in said
    monkeypatch.setenv("YARDWRIGHT_SHOP_KEY", "anvil")
    monkeypatch.setenv("YARDWRIGHT_SEAL_KEY", "wax")
    assert unsafe("0.0.0.0") == []


def until_it_answers(address: str) -> requests.Response:
    for _ in range(200):
        try:
            return requests.get(address, timeout=5)
        except requests.ConnectionError:
            time.sleep(0.05)
    raise AssertionError("the service does not answer")
