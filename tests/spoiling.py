"""Ways to spoil a template by chance: numbers, keys, counts, cuts, joints, more than anybody asks for."""

from __future__ import annotations

import copy
import re
from random import Random
from typing import Any

from hostile_templates import star, word

_NUMBER = re.compile(r"\d+(?:\.\d+)?")
NUMBERS = ("0", "-1", "0.0000001", "0.5", "2.5", "7", "40", "150", "999", "100000", "999999999999999")
ODD: tuple[Any, ...] = (
    "", " ", "x" * 599, "x" * 5000, "ｌength", "lengt\u0301h", "\u202elength", "🪑" * 40, None, True, -1, 3.5,
    float("nan"), float("inf"), 10**400, [], {}, [[[[[]]]]], ["0"] * 300, {"a": {"b": {"c": 1}}}, "'",
    "1*mm; 2*mm", "__import__('os').system('true')", "1/0", "length.__class__", "1,5*inch", "1 1/2",
    "nan*mm", "((((((((1*mm))))))))",
)


def spots(data: Any, way: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Every place in a structure that holds a value."""
    rows = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return [w for key, value in rows for w in ((*way, key), *spots(value, (*way, key)))]


def at(data: Any, way: tuple[Any, ...]) -> Any:
    for key in way:
        data = data[key]
    return data


def put(data: Any, way: tuple[Any, ...], value: Any) -> None:
    at(data, way[:-1])[way[-1]] = value


def texts(data: Any, of: str = "") -> list[tuple[Any, ...]]:
    """Places of texts that hold a number or, under ``of``, any text."""
    return [
        w
        for w in spots(data)
        if isinstance(at(data, w), str) and (of in map(str, w) if of else bool(_NUMBER.search(at(data, w))))
    ]


def rules(random: Random, data: dict[str, Any], key: str = "members") -> list[dict[str, Any]]:
    """One of a list's tables, all of them now and then; none where it has none."""
    rows = [r for r in data.get(key, []) if isinstance(r, dict)] if isinstance(data.get(key), list) else []
    return rows if random.random() < 0.2 else [random.choice(rows)] if rows else []


def another_number(random: Random, data: dict[str, Any]) -> None:
    for way in random.sample(found := texts(data), min(len(found), random.choice((1, 1, 2, 9)))):
        put(data, way, _NUMBER.sub(random.choice(NUMBERS), at(data, way), count=1))


def odd_value(random: Random, data: dict[str, Any]) -> None:
    put(data, random.choice(spots(data)), copy.deepcopy(random.choice(ODD)))


def key_gone(random: Random, data: dict[str, Any]) -> None:
    way = random.choice(spots(data))
    del at(data, way[:-1])[way[-1]]


def key_misspelt(random: Random, data: dict[str, Any]) -> None:
    ways = [w for w in spots(data) if isinstance(w[-1], str)]
    way = random.choice(ways)
    table = at(data, way[:-1])
    table[random.choice((way[-1][::-1], way[-1] + "s", way[-1].upper(), "x" * 700, "é"))] = table.pop(way[-1])


def swapped(random: Random, data: dict[str, Any]) -> None:
    one, other = random.choice(spots(data)), random.choice(spots(data))
    if one[: len(other)] != other and other[: len(one)] != one:
        first, second = at(data, one), at(data, other)
        put(data, one, second)
        put(data, other, first)


def formula_grafted(random: Random, data: dict[str, Any]) -> None:
    found = texts(data)
    if not found:
        return
    way, deep = random.choice(found), random.choice((3, 12, 30, 90))
    text = at(data, way)
    put(
        data,
        way,
        random.choice(
            (
                at(data, random.choice(found)),
                f"{text} + " + " + ".join(["0*inch"] * deep),
                "-" * deep + text,
                "(" * deep + text + ")" * deep,
                f"choose(true, {text}, " * (deep // 3) + text + ")" * (deep // 3),
                f"max({text}, " * (deep // 2) + text + ")" * (deep // 2),
                f"({text})*({text})/({text})",
                f"{text}/(length - length)",
                f"{text} + nothing",
                f"spread({text}, 1*mm, 0*mm, 1*mm).gap",
            )
        ),
    )


def more_turns(random: Random, data: dict[str, Any]) -> None:
    for row in rules(random, data):
        count = random.choice(("2", "12", "40", "90", "150", "599", "1000000", "-3", "1.5", "0"))
        given = row.get("repeat") if isinstance(row.get("repeat"), list) else []
        if given and random.random() < 0.6 and isinstance(given[0], dict):
            row["repeat"] = [given[0] | {"count": count}, *given[1:]]
        else:
            row["repeat"] = [*given, {"index": f"q{random.choice('abc')}", "count": count}]


def side_by_side(random: Random, data: dict[str, Any]) -> None:
    count, step = random.choice((6, 20, 60, 140)), random.choice(("0*mm", "1*mm", "19*mm", "3*inch"))
    for row in rules(random, data):
        if isinstance(row.get("from"), list) and isinstance(row.get("to"), list):
            row["repeat"] = [{"index": "qz", "count": str(count)}]
            k = random.randrange(3)
            for key in ("from", "to"):
                row[key] = [f"{p} + qz*{step}" if i == k else p for i, p in enumerate(row[key])]


def mirrors(random: Random, data: dict[str, Any]) -> None:
    for row in rules(random, data):
        row["mirror"] = [
            {
                "across": random.choice(("length", "depth", "height")),
                "at": random.choice(("length/2", "0*mm", "900*mm", "99999*mm")),
            }
            for _ in range(random.choice((1, 2, 3, 3, 9)))
        ]


def cuts(random: Random, data: dict[str, Any]) -> None:
    far = random.choice(("30", "300", "3000"))
    made: list[dict[str, Any]] = random.choice(
        (
            [
                {"kind": "hole", "at": [f"{far}*mm + {30 * k}*mm", "20*mm"], "diameter": "12*mm"}
                for k in range(11)
            ],
            [{"kind": "hole", "at": [f"{far}*mm", "40*mm"], "diameter": f"{far}*mm"}]
            * random.choice((1, 6, 12)),
            [{"kind": "outline", "points": star(40, 3 * k)} for k in range(random.choice((1, 3, 12)))],
            [
                {
                    "kind": "outline",
                    "points": [
                        ["0*mm", "0*mm"],
                        ["900*mm", "0*mm"],
                        *(
                            {
                                "to": [f"{900 - 20 * k}*mm", f"{60 + k % 2}*mm"],
                                "through": [f"{910 - 20 * k}*mm", "70*mm"],
                            }
                            for k in range(1, random.choice((3, 38)))
                        ),
                    ],
                }
            ],
            [
                {
                    "kind": "plane",
                    "at": [f"{far}*mm", f"{7 * k}*mm", "20*mm"],
                    "normal": [f"0.{k + 1}", "1", "0.3"],
                }
                for k in range(random.choice((2, 12)))
            ],
            [
                {
                    "kind": "pocket",
                    "from": [f"{50 * k}*mm", "0*mm", "0*mm"],
                    "to": [f"{50 * k + 25}*mm", "90*mm", "9*mm"],
                }
                for k in range(random.choice((1, 12)))
            ],
        )
    )
    for row in rules(random, data):
        kept = row.get("cuts") if isinstance(row.get("cuts"), list) else []
        row["cuts"] = made if random.random() < 0.5 else [*kept, *made]


def many_rules(random: Random, data: dict[str, Any]) -> None:
    count, rows = random.choice((5, 40, 190, 500)), rules(random, data)
    for row in rows[:1]:
        data["members"] += [copy.deepcopy(row) | {"name": f"Board {word(k)}"} for k in range(count)]


def everything_moves(random: Random, data: dict[str, Any]) -> None:
    opens = random.choice(("5*deg", "95*deg", "360*deg", "-360*deg", "100000*deg"))
    data["groups"] = {
        "lid": {
            "along": random.choice(("length", "depth", "height")),
            "at": ["0*mm", random.choice(("0*mm", "400*mm")), "400*mm"],
            "opens": opens,
        }
    }
    for row in rules(random, data):
        row["group"] = "lid"


def all_with_all(random: Random, data: dict[str, Any]) -> None:
    joint = {
        "of": ["*"],
        "to": ["*"],
        "fasten": random.choice(("none", "screws", "bolts", "glue")),
        "per_contact": random.choice(("1", "2", "99", "100000")),
        "glue": random.random() < 0.5,
    }
    share = {} if random.random() < 0.5 else {"may_share": random.choice(("1*mm", "50*inch"))}
    data["joints"] = [joint | share | {"name": f"J {word(k)}"} for k in range(random.choice((1, 12, 200)))]


def checks(random: Random, data: dict[str, Any]) -> None:
    asked: list[dict[str, Any]] = [
        {"rule": "seat load", "members": ["*"]},
        {"rule": "back load", "members": ["*"] * 9},
        {"rule": "shelf load", "members": ["*"], "words": {"use": "shelf"}},
        {"rule": "lid", "stay_torque": "1"},
        {"rule": "tip over", "push_height": random.choice(("900*mm", "0*mm", "99999*mm"))},
        {"rule": "board gaps", "gap": random.choice(("5*mm", "0*mm", "-5*mm"))},
        {"rule": "arm load", "members": ["*"]},
        {"rule": "soil floor", "soil_depth": "300*mm", "members": ["*"]},
        {"rule": "attached seats", "members": ["*"]},
        {"rule": "sit load"},
    ]
    data["checks"] = [copy.deepcopy(random.choice(asked)) for _ in range(random.choice((1, 8, 60, 200)))]


def glued(random: Random, data: dict[str, Any]) -> None:
    data["glue_ups"] = [
        {"name": f"G {word(k)}", "kind": random.choice(("edge", "face", "L")), "members": ["*"]}
        for k in range(random.choice((1, 12, 150)))
    ]


def bought(random: Random, data: dict[str, Any]) -> None:
    data["hardware"] = [
        {
            "name": f"H {word(k)}",
            "kind": random.choice(("hinge", "hook", "moon", "bolt", "stay")),
            "count": random.choice(("1", "0", "9999", "-1", "0.5")),
            "size": {"length": "3*inch"},
        }
        for k in range(random.choice((1, 40, 200)))
    ]


def work(random: Random, data: dict[str, Any]) -> None:
    data["operations"] = [
        {
            "name": f"O {word(k)}",
            "standard": random.choice(("fit-stay", "sand-blank", "rest")),
            "count": random.choice(("1", "9", "9999", "-1")),
        }
        for k in range(random.choice((1, 200)))
    ]


def wide_ranges(random: Random, data: dict[str, Any]) -> None:
    for dimension in data.get("dimensions", {}).values():
        if isinstance(dimension, dict):
            dimension["max"] = random.choice(("200 in", "5 m", "30 m", "100 km"))


def many_choices(random: Random, data: dict[str, Any]) -> None:
    options = [{"id": f"o{k}", "label": "x"} for k in range(random.choice((2, 190)))]
    data["choices"] = {
        **data.get("choices", {}),
        **{f"zz{k}": {"label": "x", "options": options} for k in range(20)},
    }


def other_stock(random: Random, data: dict[str, Any]) -> None:
    for role in data.get("boards", {}).values():
        if isinstance(role, dict) and random.random() < 0.5:
            role["sections"] = random.choice((["9x9"], ["1x4"], ["2x2", "45x45"], ["6x6"], ["1x4"] * 150))
