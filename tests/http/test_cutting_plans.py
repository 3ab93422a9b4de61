"""The cutting planner over HTTP: what cuts cost, and what cannot be cut, by name."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient

BOARD = {"code": "B8", "length": "8 ft", "width": "5 1/2 in", "price": "10.00"}
PART = {"mark": "A2", "length": "40 in", "width": "5 1/2 in", "count": 1}


def ask(client: FlaskClient, **changes: Any) -> Any:
    question = {"kerf": "1/8 in", "end_trim": "1/4 in", "stock": [BOARD], "parts": [PART], **changes}
    return client.post("/v1/cutting-plans", json=question)


def only_fault(answer: Any) -> tuple[int, str, str]:
    (fault,) = answer.json["errors"]
    return answer.status_code, fault["pointer"], fault["detail"]


@pytest.mark.parametrize(("changes", "pointer", "said"), [
    ({"length": "9 ft"}, "/parts/0/length", ["A2", "108 in", "gives 95 1/2 in", "at least 108 1/2 in"]),
    ({"width": "6 in"}, "/parts/0/width", ["A2", "6 in wide", "widest stock gives 5 1/2 in", "glued up"])])
def test_a_part_too_large_is_named_with_the_limit_and_what_would_do(
        client: FlaskClient, changes: dict[str, str], pointer: str, said: list[str]) -> None:
    status, where, detail = only_fault(ask(client, parts=[PART | changes]))
    assert (status, where) == (422, pointer)
    assert all(word in detail for word in said), detail


def test_a_strip_narrower_than_is_safe_is_refused(client: FlaskClient) -> None:
    _, where, detail = only_fault(ask(client, parts=[PART | {"width": "3/4 in"}], least_strip="1 in"))
    assert where == "/parts/0/width"
    assert "rips no strip narrower than 1 in" in detail


def test_a_board_too_long_to_carry_is_not_cut_from(client: FlaskClient) -> None:
    _, _, detail = only_fault(ask(client, longest_carry="6 ft"))
    assert "longest carry, 72 in" in detail


@pytest.mark.parametrize("member", ["stock", "on_hand"])
@pytest.mark.parametrize(("start", "to", "said"), [
    ("20 in", "10 in", "beyond from"), ("20 in", "20 in", "beyond from"),
    ("90 in", "100 in", "beyond the end of the piece")])
def test_an_impossible_blocked_zone_is_refused(client: FlaskClient, member: str, start: str, to: str,
                                               said: str) -> None:
    held = BOARD | {"blocked": [{"from": start, "to": to}]}
    status, where, detail = only_fault(ask(client, **{member: [held]}))
    assert (status, where) == (422, f"/{member}/0/blocked/0/to")
    assert said in detail


def test_a_piece_of_a_job_cannot_be_blocked_beyond_its_end(client: FlaskClient) -> None:
    held = {"section": "1x6", "timber": "western-red-cedar", "length": "50 in",
            "blocked": [{"from": "40 in", "to": "60 in"}]}
    answer = client.post("/v1/quotes", json={"units": "in", "items": [{"template": "storage-bench"}],
                                             "on_hand": [held]})
    assert only_fault(answer)[:2] == (422, "/on_hand/0/blocked/0/to")


def test_no_part_lies_on_a_blocked_zone(client: FlaskClient) -> None:
    held = BOARD | {"blocked": [{"from": "41 in", "to": "42 in"}]}
    layouts = ask(client, stock=[held], parts=[PART | {"count": 2}]).json["cutting"]["layouts"]
    assert len(layouts) == 1
    for part in layouts[0]["parts"]:
        assert part["x_mm"] + part["length_mm"] <= 41 * 25.4 or part["x_mm"] >= 42 * 25.4


def test_cuts_and_set_ups_are_charged_and_a_kept_offcut_is_credited(client: FlaskClient) -> None:
    costs = {"crosscut": "0.50", "set_up": "0.10", "offcut_credit_per_m": "1.00"}
    answer = ask(client, costs=costs, parts=[PART | {"count": 2}], least_offcut="12 in").json
    # The board, its trimmed end and two cuts, one stop; the last 15 1/4 in less end trim is 0.374 65 m.
    offcut_m = (96 - 0.25 - 0.25 - 2 * 40.125) * 0.0254
    assert answer["cutting"]["cost"] == f"{10 + 3 * 0.5 + 0.1 - offcut_m:.2f}"
    assert answer["stock"] == [{"code": "B8", "count": 1, "amount": "10.00"}]


def test_a_credit_that_makes_boards_free_is_refused_where_it_stands(client: FlaskClient) -> None:
    answer = ask(client, costs={"offcut_credit_per_m": "50.00"}, least_offcut="1 in")
    assert only_fault(answer)[1] == "/costs/offcut_credit_per_m"


def test_a_negative_price_of_cuts_is_refused(client: FlaskClient) -> None:
    answer = ask(client, costs={"crosscut": "-1.00"})
    assert answer.status_code == 422
    assert "not negative" in answer.text


SHEET = {"code": "PLY", "kind": "sheet", "length": "8 ft", "width": "4 ft", "price": "50.00"}
ROLL = {"code": "MESH", "kind": "roll", "length": "12 in", "width": "36 in", "price": "3.00"}


def test_sheets_are_trimmed_cut_and_proven(client: FlaskClient) -> None:
    panel = {"mark": "S", "length": "23 in", "width": "47 in", "count": 4}
    answer = ask(client, stock=[SHEET], parts=[panel], edge_trim="1/4 in").json
    assert (answer["cutting"]["status"], answer["cutting"]["cost"]) == ("optimal", "50.00")
    (layout,) = answer["cutting"]["layouts"]
    assert min(part["y_mm"] for part in layout["parts"]) == 6.35
    assert [step["piece"] for step in layout["steps"]][:3] == ["sheet", "sheet, edge", "sheet"]


def test_no_part_of_a_sheet_lies_on_a_blocked_zone(client: FlaskClient) -> None:
    held = SHEET | {"blocked": [{"from": "30 in", "to": "31 in"}]}
    panel = {"mark": "S", "length": "24 in", "width": "40 in", "count": 3}
    for layout in ask(client, stock=[held], parts=[panel]).json["cutting"]["layouts"]:
        for part in layout["parts"]:
            assert part["x_mm"] + part["length_mm"] <= 30 * 25.4 or part["x_mm"] >= 31 * 25.4


def test_a_panel_that_may_turn_goes_on_the_sheet_and_one_that_may_not_is_named(client: FlaskClient) -> None:
    panel = {"mark": "S", "length": "40 in", "width": "60 in", "count": 1}
    assert ask(client, stock=[SHEET], parts=[panel | {"grain": "either"}]).status_code == 200
    status, where, detail = only_fault(ask(client, stock=[SHEET], parts=[panel]))
    assert (status, where) == (422, "/parts/0/width")
    assert "Letting it turn (grain either) would do" in detail


def test_a_panel_of_a_roll_costs_whole_steps(client: FlaskClient) -> None:
    panel = {"mark": "M", "length": "11 in", "width": "30 in", "count": 1}
    answer = ask(client, stock=[ROLL], parts=[panel], end_trim="0 in").json
    assert answer["stock"] == [{"code": "MESH", "count": 1, "amount": "3.00"}]
    status, where, detail = only_fault(ask(client, stock=[ROLL], parts=[panel | {"length": "13 in"}]))
    assert (status, where) == (422, "/parts/0/length")
    assert "part M is 13 in long" in detail


@pytest.mark.parametrize("stock", [BOARD, SHEET])
def test_trims_that_leave_nothing_are_named(client: FlaskClient, stock: dict[str, str]) -> None:
    _, _, detail = only_fault(ask(client, stock=[stock], end_trim="4 ft"))
    assert "part A2" in detail and "trim" in detail


@pytest.mark.parametrize(("member", "value"), [
    ("kerf", "-1/8 in"), ("end_trim", "-1 in"), ("least_strip", "-1 in"), ("longest_carry", "0 in"),
    ("kerf", {"mm": "NaN"}), ("costs", {"crosscut": "NaN"})])
def test_a_rule_below_nothing_or_no_number_is_refused(client: FlaskClient, member: str, value: Any) -> None:
    answer = ask(client, **{member: value})
    assert answer.status_code == 422
    assert answer.json["errors"][0]["pointer"].startswith(f"/{member}")
