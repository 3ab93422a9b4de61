"""The app's own rules, run in the browser they are for: reading a field, the outbox, the request."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

READ = """async ([path, text, units, kind]) => {
  const { readField } = await import('/logic/reading.js');
  const { describe } = await import('/logic/fields.js');
  const { newDraft } = await import('/logic/draft.js');
  const draft = newDraft('x', 1, units, 0);
  draft.site.kind = kind;
  return readField(text, units, describe(path, draft, { things: new Map(), template: () => null }));
}"""


@pytest.fixture(scope="module")
def page(browser: Browser, server: str) -> Iterator[Page]:
    opened = browser.new_page()
    opened.goto(f"{server}/icons/icon.svg")
    yield opened
    opened.close()


def read(page: Page, path: str, text: str, units: str = "in") -> dict[str, Any]:
    found: dict[str, Any] = page.evaluate(READ, [path, text, units, "between walls"])
    return found


GOOD = [
    ("site.readings.0.value", "63 1/2", 1612_900_000, "63 1/2 in = 1613 mm"),
    ("site.readings.0.value", "63½", 1612_900_000, "63 1/2 in = 1613 mm"),
    ("site.readings.0.value", "1.61 m", 1610_000_000, "63 3/8 in = 1610 mm"),
    ("site.readings.0.value", "2 in", 50_800_000, "2 in = 51 mm"),
    ("site.ground.fallAlong", "1/4 in per ft", pytest.approx(1 / 48), "2.1 % = 1:48"),
    ("site.ground.fallAlong", "1,5 %", pytest.approx(0.015), "1.5 % = 1:67"),
    ("site.ground.fallAlong", "level", 0, "level"),
    ("delivery.distance", "8", "8 mi", "8 mi = 12.9 km"),
    ("extras.0.amount", "45,50", "45.50", ""),
]

BAD = [
    ("site.readings.0.value", "63 1/", "lower number"),
    ("site.readings.0.value", "5-3 1/2", "5' 3 1/2\""),
    ("site.readings.0.value", "1610", "1610 mm"),
    ("site.readings.0.value", "2", "write the unit behind it"),
    ("site.readings.0.value", "wide", "44 in"),
    ("site.ground.fallAlong", "steep", "1/4 in per ft"),
    ("site.ground.fallAlong", "40 %", "25 %"),
    ("site.left.angle", "9", "90 is a square corner"),
    ("items.0.quantity", "two", "1, 2, 3"),
    ("extras.0.amount", "about 40", "45.50"),
    ("customer.email", "maren", "@"),
]


@pytest.mark.parametrize(("path", "text", "value", "echo"), GOOD)
def test_a_field_says_what_it_understood(page: Page, path: str, text: str, value: Any, echo: str) -> None:
    found = read(page, path, text)
    assert (found["state"], found["value"], found["echo"]) == ("good", value, echo)


@pytest.mark.parametrize(("path", "text", "said"), BAD)
def test_a_fault_says_what_would_be_right(page: Page, path: str, text: str, said: str) -> None:
    found = read(page, path, text)
    assert found["state"] == "bad"
    assert said in found["fault"]


def test_four_keys_give_every_sixteenth(page: Page) -> None:
    presses = [("63", 2), ("63 1/2", 16), ("63 3/4", 4), ("5' ", 4), ("5' 3", 8), ("", 16), ("63 7/8", 8),
               ('63 1/2"', 4)]
    after = page.evaluate("async (all) => { const { addFraction } = await import('/logic/reading.js');"
                          " return all.map(([text, over]) => addFraction(text, over)); }", presses)
    assert after == ["63 1/2", "63 9/16", "64", "5' 1/4", "5' 3 1/8", "1/16", "64", '63 3/4"']


def test_a_change_of_unit_keeps_what_was_meant(page: Page) -> None:
    kept = page.evaluate("""async () => {
      const { newDraft, switchUnits } = await import('/logic/draft.js');
      const draft = newDraft('x', 1, 'in', 0);
      ['63 1/2', '63 1/', '1610 mm'].forEach((text, index) => { draft.site.readings[index].value = text; });
      draft.site.left.angle = '90';
      draft.items[0].dimensions = { length: '44' };
      switchUnits(draft, 'mm');
      const { readings, left } = draft.site;
      return [readings.map((one) => one.value), left.angle, draft.items[0].dimensions.length];
    }""")
    assert kept == [["63 1/2 in", "63 1/", "1610 mm"], "90", "44 in"]


def test_the_outbox_backs_off_parks_and_keeps_its_order(page: Page) -> None:
    found = page.evaluate("""async () => {
      const { afterFailure, due, entry, waiting } = await import('/logic/outbox.js');
      const [late, early] = [entry('b', 7, 'd', {}), entry('a', 3, 'd', {})];
      const busy = afterFailure(early, { kind: 'busy', waitSeconds: 30 }, 1000);
      const twice = afterFailure({ ...early, tries: 3 }, { kind: 'busy', waitSeconds: 0 }, 0);
      const refused = afterFailure(late, { kind: 'refused', problem: { title: 'no' } }, 0);
      return [due([late, early], 0).map((one) => one.id), busy.notBefore, twice.notBefore,
        due([busy], 30_999).length, due([busy], 31_000).length,
        refused.parked.title, waiting([refused, busy]), due([refused], 1e12).length];
    }""")
    assert found == [["a", "b"], 31_000, 40_000, 0, 1, "no", 1, 0]


def test_a_request_names_the_field_behind_each_part(page: Page) -> None:
    found = page.evaluate("""async () => {
      const { newDraft, addLine } = await import('/logic/draft.js');
      const { toJob, fieldAt } = await import('/logic/request.js');
      const draft = newDraft('x', 1, 'in', 0);
      draft.site.kind = 'corner';
      draft.site.cornerAt = 'right';
      draft.site.readings[1].value = '70';
      addLine(draft, 'site.obstructions');
      Object.assign(draft.site.obstructions[0], { kind: 'tap', from: '10', to: '12', projection: '' });
      draft.site.right.lean = '1/2';
      Object.assign(draft.site, { backLean: '1/2', backLeanOver: '40', backLeans: 'away' });
      draft.items[0].template = 'storage-bench';
      const catalogue = { things: new Map([['tap', 'Tap']]), template: () => null };
      const { body, faults, where } = toJob(draft, catalogue, '2026-05-02');
      return {
        sides: body.site.walls.map((one) => one.side), reading: body.site.walls[0].readings,
        leans: body.site.walls.map((one) => one.leans ?? 'in'),
        faults: faults.map((one) => one.path), step: faults.map((one) => one.step),
        at: fieldAt(where, '/site/walls/0/readings/0/value'),
        parent: fieldAt(where, '/items/0/quantity/deeper'),
      };
    }""")
    assert found["sides"] == ["back", "right"]
    assert found["leans"] == ["away", "in"]
    assert found["reading"] == [{"value": {"mm": 1778}, "at_height": {"mm": 457.2}}]
    assert found["faults"] == ["site.obstructions.0.projection", "site.right.leanOver"]
    assert found["step"] == ["space", "space"]
    assert found["at"] == "site.readings.1.value"
    assert found["parent"] == "items.0.quantity"


JOB = """async (changes) => {
  const { toJob } = await import('/logic/request.js');
  const { newDraft, put } = await import('/logic/draft.js');
  const draft = newDraft('x', 1, 'in', 0);
  for (const [path, value] of Object.entries(changes)) put(draft, path, value);
  const timber = { name: 'timber', options: [], default: 'western-red-cedar' };
  const template = { dimensions: [], choices: [timber] };
  const { body, faults, where } = toJob(draft, { things: new Map(), template: () => template }, '2026-11-25');
  return { body, faults: faults.map((one) => [one.path, one.detail]), where };
}"""
CORNER = {"site.kind": "corner", "site.readings.0.value": "88", "items.0.template": "storage-bench",
          "site.left.corner": "tapes", "site.left.along": "48", "site.left.out": "36",
          "site.left.across": "60"}
AGAIN = {"site.left.again.along": "40", "site.left.again.out": "30", "site.left.again.across": "50 1/4"}


def asked(page: Page, changes: dict[str, Any]) -> dict[str, Any]:
    found: dict[str, Any] = page.evaluate(JOB, changes)
    return found


def test_a_corner_measured_twice_sends_both_and_half_a_second_time_is_named(page: Page) -> None:
    once = asked(page, CORNER)
    assert len(once["body"]["site"]["corners"][0]["diagonals"]) == 1 and not once["faults"]
    twice = asked(page, CORNER | AGAIN)
    assert [d["across"]["mm"] for d in twice["body"]["site"]["corners"][0]["diagonals"]] == [1524, 1276.35]
    assert twice["where"]["/site/corners/0/diagonals/1/across"] == "site.left.again.across"
    half = asked(page, CORNER | {"site.left.again.along": "40"})
    assert [path for path, _ in half["faults"]] == ["site.left.again.out", "site.left.again.across"]


def test_a_discount_is_a_share_or_an_amount_with_its_reason(page: Page) -> None:
    why = CORNER | {"discount.reason": "moss"}
    amount = asked(page, why | {"discount.amount": "25,50"})["body"]["discount"]
    assert amount == {"amount": "25.50", "reason": "moss"}
    share = asked(page, why | {"discount.share": "5"})["body"]["discount"]
    assert share == {"share": "0.05", "reason": "moss"}
    faults = asked(page, CORNER | {"discount.share": "5", "discount.amount": "20"})["faults"]
    assert [path for path, _ in faults] == ["discount.reason", "discount.amount"]
    assert "discount" not in asked(page, CORNER | {"discount.amount": "0"})["body"]


def test_a_drop_of_nought_is_sent_as_measured_and_an_empty_one_not_at_all(page: Page) -> None:
    assert "ground" not in asked(page, CORNER)["body"]["site"]
    level = asked(page, CORNER | {"site.ground.dropBehind": "0"})
    assert level["body"]["site"]["ground"] == {"drop_behind": {"mm": 0}} and not level["faults"]


def test_the_time_of_a_signature_is_the_clock_on_the_wall_with_its_distance_from_utc(page: Page) -> None:
    said = page.evaluate("""async () => {
      const { momentText } = await import('/logic/view.js');
      const at = (minutes) => ({ getTimezoneOffset: () => minutes, getFullYear: () => 2026, getMonth: () => 6,
        getDate: () => 5, getHours: () => 17, getMinutes: () => 4, getSeconds: () => 9 });
      return [-120, 0, 210, -345].map((minutes) => momentText(at(minutes)));
    }""")
    assert said == [f"2026-07-05T17:04:09{zone}" for zone in ("+02:00", "+00:00", "-03:30", "+05:45")]


def test_boards_in_the_rack_are_asked_with_the_timber_of_the_piece(page: Page) -> None:
    line = {"timber": "", "section": "1x6", "length": "12'", "count": "3"}
    found = asked(page, CORNER | {"rack": [{"timber": "", "section": "", "length": "", "count": "1"}, line]})
    assert found["body"]["on_hand"] == [{"timber": "western-red-cedar", "section": "1x6",
                                         "length": {"mm": 3657.6}, "count": 3}]
    assert found["where"]["/on_hand/0/section"] == "rack.1.section"
    missing = asked(page, CORNER | {"rack": [line | {"length": ""}]})
    assert missing["faults"] == [["rack.0.length", "Boards 1, length of one: measure the length of one."]]
    assert "on_hand" not in asked(page, CORNER | {"rack": None})["body"]      # a draft kept by an older app


@pytest.mark.parametrize(("searched", "said"), [
    ("nothing", "Make it deep. No change of its sizes and choices that was tried mends it, nor two at once."),
    ("stopped", "Make it deep."), ("", "Make it deep.")])
def test_that_no_change_was_found_is_said_on_the_phone_alone(page: Page, searched: str, said: str) -> None:
    own = page.evaluate("async (one) => (await import('/logic/mends.js')).ownMend(one)",
                        {"mend": "Make it deep.", "mends": [], "searched": searched})
    assert own == said
