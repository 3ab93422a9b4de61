"""The JSON Schema for editors: every template satisfies it, and it knows the very entries the reader knows.

Judged by jsonschema, a general-purpose validator of JSON Schema 2020-12. Status: seen (json-schema.org).
"""

from __future__ import annotations

import copy
import json
import re
import tomllib
from typing import Any

import jsonschema
import pytest

from builders import DATA
from format_page import STAGES
from fuzzed_templates import case
from small_templates import trestle
from yardwright.domain.errors import BadTemplate
from yardwright.domain.template import read_template
from yardwright.domain.template.members import CUTS
from yardwright.domain.template.table import Table

FOLDER = DATA / "templates"
SCHEMA: dict[str, Any] = json.loads((FOLDER / "template.schema.json").read_text(encoding="utf-8"))
JUDGE = jsonschema.Draft202012Validator(SCHEMA)
TEMPLATES = {path.stem: path.read_text(encoding="utf-8") for path in sorted(FOLDER.glob("*.toml"))}
TEMPLATES |= {f"format page, {stage}": text for stage, text in STAGES.items()}


@pytest.mark.parametrize("name", TEMPLATES)
def test_every_template_satisfies_the_schema(name: str) -> None:
    found = JUDGE.iter_errors(tomllib.loads(TEMPLATES[name]))
    assert [f"{fault.json_path}: {fault.message}" for fault in found] == []


def everything() -> dict[str, Any]:
    """A template with one of each kind of entry; what it says makes no piece."""
    data = trestle(
        glue_ups=[{}],
        operations=[{}],
        assembly=[{}],
        checks=[{}],
        sheets={"s": {}},
        rolls={"r": {}},
        hardware=[{}],
        joints=[{}],
    )
    data["fit"]["values"] = {}
    member = data["members"][0]
    member["cuts"] = [{"kind": kind, "points": [{"to": [], "through": []}] * 3} for kind in CUTS]
    member["repeat"] = [{}]
    member["ends"] = [{"angle": "1*deg"}, {"against": "Post"}]
    data["cautions"] = [{}]
    return data


def asked_by_the_reader(monkeypatch: pytest.MonkeyPatch) -> dict[str, set[str]]:
    """Pointer of each table, numbers and free names as *, with every entry the reader looked for in it."""
    asked: dict[str, set[str]] = {}
    take, has = Table.take, Table.has

    def seen(table: Table, key: str) -> None:
        at = re.sub(r"/\d+", "/*", table.pointer)
        at = re.sub(r"^/(dimensions|choices|boards|sheets|rolls|groups)/[^/]+", r"/\1/*", at)
        if at.endswith("/cuts/*"):
            at += f":{table.data.get('kind')}"
        asked.setdefault(at, set()).add(key)

    def spied_take(table: Table, key: str, default: Any = None) -> Any:
        seen(table, key)
        return take(table, key, default)

    def spied_has(table: Table, key: str) -> bool:
        seen(table, key)
        return has(table, key)

    monkeypatch.setattr(Table, "take", spied_take)
    monkeypatch.setattr(Table, "has", spied_has)
    with pytest.raises(BadTemplate):
        read_template(everything())
    return asked


PLACES = {
    "": SCHEMA,
    "/dimensions/*": "dimension",
    "/dimensions/*/default": "lengths",
    "/choices/*": "choice",
    "/boards/*": "board",
    "/sheets/*": "material",
    "/rolls/*": "material",
    "/groups/*": "group",
    "/fit": "fit",
    "/fit/envelope": "envelope",
    "/members/*": "member",
    "/glue_ups/*": "glue_up",
    "/joints/*": "joint",
    "/hardware/*": "hardware",
    "/operations/*": "operation",
    "/assembly/*": "step",
    "/checks/*": "check",
    "/cautions/*": "caution",
}


def known(place: Any) -> set[str]:
    """Names of the entries that a part of the schema knows, of all its alternatives together."""
    part = SCHEMA["$defs"][place] if isinstance(place, str) else place
    found = set(part.get("properties", {}))
    for one in part.get("anyOf", ()):
        found |= set(one.get("properties", {}))
    return found


def test_the_schema_knows_what_the_reader_knows(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = asked_by_the_reader(monkeypatch)
    for at, place in PLACES.items():
        assert known(place) == asked[at], at
    cuts = {one["properties"]["kind"]["const"]: known(one) for one in SCHEMA["$defs"]["cut"]["oneOf"]}
    assert cuts == {kind: asked[f"/members/*/cuts/*:{kind}"] for kind in CUTS}
    assert known("end") == asked["/members/*/ends/*"]
    assert known("outline_point") == asked["/members/*/cuts/*/points/*"]
    inner = SCHEMA["$defs"]["member"]["properties"]
    assert set(inner["repeat"]["items"]["properties"]) == asked["/members/*/repeat/*"]
    assert set(inner["mirror"]["items"]["properties"]) == asked["/members/*/mirror/*"]
    assert set(SCHEMA["properties"]["overall"]["properties"]) == asked["/overall"]


@pytest.mark.parametrize(
    ("path", "wrong"),
    [
        ("members/0/wide", "rigth"),
        ("members/0/board", 3),
        ("members/0/wyde", "up"),
        ("dimensions/length/min", 24),
        ("joints", {}),
        ("fit/envelope/lenght", "length"),
        ("members/0/ends", ["square"]),
        ("id", "Two Words"),
        ("members/0/cuts", [{"kind": "hole", "diameter": "3*mm"}]),
        ("checks", [{}]),
        ("members", []),
    ],
)
def test_the_schema_and_the_reader_refuse_the_same_mistakes(path: str, wrong: Any) -> None:
    data = copy.deepcopy(trestle())
    JUDGE.validate(data)
    *way, last = path.split("/")
    place: Any = data
    for step in way:
        place = place[int(step) if isinstance(place, list) else step]
    place[last] = wrong
    assert not JUDGE.is_valid(data)
    with pytest.raises(BadTemplate):
        read_template(data)


# What only the reader can tell, by the words it tells it in: formulas, names declared elsewhere, lengths as
# written, ranges, sums over the whole template.
BEYOND_A_SCHEMA = re.compile(
    "|".join(
        (
            r"character \d+: ",
            "is of kind ",
            "comes out as .* no kind of value",
            "no (member|board|sheet|roll|joint) '",
            "no dimension '",
            "a second member '",
            "is already a name",
            "cannot be a name",
            "is declared twice",
            "is not an option",
            "is given twice",
            "is not in the list",
            "is chosen by",
            "is not known here",
            "is no unit",
            "This is no length",
            "has no unit",
            "is not negative",
            "more than 100 m",
            "fraction",
            "divided by",
            "is outside min",
            "is less than min",
            "more than nothing",
            "goes in a ring",
            "3 numbers or lengths",
            "a template holds at most",
            "nested more than",
            "words and marks",
            "names no side",
            "must be words that end",
            "must name edges",
            "say how many",
            "boards, sheets and rolls",
            "wing",
            "the group of what does not move",
            "Whole and fraction",
            "two numbers",
            "write one",
            "A length is",
        )
    )
)


@pytest.mark.parametrize("seeds", [range(at, at + 25) for at in range(3000, 3150, 25)], ids=str)
def test_the_schema_refuses_nothing_that_the_reader_takes_and_all_that_a_schema_can_tell(
    seeds: range,
) -> None:
    for seed in seeds:
        spoilt = case(seed)
        if re.search(r"\b(nan|inf)\b", repr(spoilt.template)):
            continue  # is no JSON
        valid = JUDGE.is_valid(spoilt.template)
        try:
            read_template(spoilt.template)
        except BadTemplate as refused:
            plain = [f for f in refused.faults if not BEYOND_A_SCHEMA.search(f.detail)]
            assert not valid or not plain, (seed, spoilt.told, plain)
        else:
            assert valid, (seed, spoilt.told, [e.message[:200] for e in JUDGE.iter_errors(spoilt.template)])


@pytest.mark.parametrize(
    ("key", "rows", "most"),
    [
        ("cuts", [{"kind": "hole", "at": ["40*mm", "20*mm"], "diameter": "9*mm"}] * 13, 12),
        ("mirror", [{"across": "length", "at": "length/2"}] * 4, 3),
    ],
)
def test_more_cuts_or_mirrors_than_are_looked_at_are_refused_not_dropped(
    key: str, rows: list[dict[str, Any]], most: int
) -> None:
    data = copy.deepcopy(trestle())
    data["members"][0][key] = rows
    assert not JUDGE.is_valid(data)
    with pytest.raises(BadTemplate, match=f"more than the {most} a member may have"):
        read_template(data)
