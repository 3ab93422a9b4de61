"""Templates that mean harm, by name: what they try is in the name. All are the small trestle, spoilt.

``make hostile`` (bench/hostile.py) prints how many escape or crash, and the worst CPU time.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from small_templates import changed, trestle

DEEP, LONG = 400, 60_000


def nested(levels: int, inner: Any = 0) -> Any:
    """A list in a list in a list."""
    for _ in range(levels):
        inner = [inner]
    return inner


def with_value(text: str) -> dict[str, Any]:
    """The trestle with one more named value."""
    return changed("values/extra", text)


def with_member(**entries: Any) -> dict[str, Any]:
    """The trestle with its lid board changed; joints, groups and checks are kept."""
    data = trestle()
    data["members"][2] |= entries
    return data


def many(count: int, **entries: Any) -> dict[str, Any]:
    """``count`` member rules like the lid board, none of them on the hinge."""
    data = trestle()
    board = {key: value for key, value in data["members"][2].items() if key not in ("group", "when")}
    data["members"] += [board | {"name": f"Board {word(k)}"} | entries for k in range(count)]
    return data


def word(k: int) -> str:
    """A number in letters, since names end in none."""
    return "".join("abcdefghij"[int(digit)] for digit in str(k))


def star(points: int, spin: int = 0) -> list[Any]:
    """An outline of long thin spikes, which another cuts at every one."""
    return [[f"{20 + 9 * k + spin if k % 2 else 1016 - 9 * k}*mm", f"{3 * k + 1}*mm"] for k in range(points)]


ESCAPES = {
    "import": "__import__('os').system('id')",
    "attributes of a number": "(1).__class__.__bases__",
    "attributes of a name": "length.__class__",
    "mro walk": "height.__class__.__mro__[1].__subclasses__()",
    "builtins": "__builtins__",
    "open a file": "open('/etc/passwd')",
    "eval": "eval('1')",
    "lambda": "(lambda: 1)()",
    "comprehension": "[x for x in (1,)]",
    "walrus": "(x := 5)*mm",
    "format string": "'{0.__class__}'.format(length)",
    "f-string": "f'{length}'",
    "dunder as a function": "__init__(length)",
    "power": "9**9**9*mm",
    "shift": "(1 << 10000000)*mm",
    "assignment": "length = 1*mm",
    "semicolon": "1*mm; 2*mm",
    "new line and import": "1*mm\nimport os",
    "backslash": "1*mm\\\n+1*mm",
    "null byte": "1*mm\x00",
    "another function": "exec('x')",
    "function by field": "min.__call__(1, 2)",
    "fullwidth letters": "ｌength",
    "cyrillic look-alike": "l\u0435ngth",
    "fullwidth digits": "１*mm",
    "arabic digits": "١٢*mm",
    "zero width": "len\u200bgth",
    "direction override": "\u202elength",
    "combining": "lengt\u0301h",
    "superscript": "2\u00b2*mm",
    "infinity": "inf*mm",
    "not a number": "nan*mm",
    "e notation": "1e308*mm",
    "hexadecimal": "0xffff*mm",
    "index of a record": "spread(length, post.width, 0*mm, 1*mm)[0]",
    "private field": "spread(length, post.width, 0*mm, 1*mm).__dict__",
    "string times number": "'a'*1000000000",
}

BLOW_UPS: dict[str, Callable[[], Any]] = {
    "multiplying without end": lambda: with_value("*".join(["999999999999999"] * 24)),
    "divided by nothing": lambda: with_value("1*mm/(length - length)"),
    "root of a negative": lambda: with_value("sqrt(0 - 1)*mm"),
    "tangent of a right angle": lambda: with_value("tan(90*deg)*mm"),
    "hundred thousand letters": lambda: with_value("1" * 100_000),
    "brackets four hundred deep": lambda: with_value("(" * 180 + "1" + ")" * 180),
    "choose forty deep": lambda: with_value("choose(true, " * 28 + "1" + ", 2)" * 28),
    "minus signs": lambda: with_value("-" * 390 + "1"),
    "not not not": lambda: with_value("not " * 90 + "true"),
    "a chain of names, each twice the last": lambda: changed(
        "values", {f"v{k}": f"v{k - 1} + v{k - 1}" if k else "1*mm" for k in range(190)}),
    "values in a ring": lambda: changed("values", {"a": "b", "b": "c", "c": "a", "under": "height"}),
    "a value of itself": lambda: with_value("extra + 1*mm"),
    "ten thousand values": lambda: changed("values", {f"v{k}": "1" for k in range(10_000)}),
    "two hundred values in reverse": lambda: changed(
        "values", {"under": "height"} | {f"v{k}": f"v{k + 1}" if k < 190 else "1" for k in range(191)}),
    "full formulas": lambda: changed(
        "values", {"under": "height"} | {f"v{k}": "+".join(["1"] * 90) for k in range(190)}),
    "hundred nearly right names": lambda: changed(
        "values", {f"w{k}": f"lenght{k} + hieght{k}" for k in range(190)}),
    "full formulas in the fit": lambda: changed(
        "fit/values", {f"f{k}": "+".join(["1"] * 90) for k in range(150)}),
    "spread of a million boards": lambda: with_value("spread(length, 0.001*mm, 0*mm, 1*mm).gap"),
    "spread between nothing": lambda: with_value("spread(length, 0*mm, 0*mm, 0*mm).gap"),
    "a million copies": lambda: with_member(repeat=[{"index": "n", "count": "1000000"}]),
    "less than no copies": lambda: with_member(repeat=[{"index": "n", "count": "-5"}]),
    "half a copy": lambda: with_member(repeat=[{"index": "n", "count": "2.5"}]),
    "copies in copies in copies": lambda: with_member(
        repeat=[{"index": x, "count": "590"} for x in ("i", "j", "k")]),
    "none of many of many": lambda: with_member(
        repeat=[{"index": x, "count": count} for x, count in (("i", "600"), ("j", "600"), ("k", "0"))]),
    "copies and mirrors": lambda: with_member(
        repeat=[{"index": "i", "count": "599"}],
        mirror=[{"across": "length", "at": "length/2"}, {"across": "depth", "at": "height"},
         {"across": "height", "at": "length"}]),
    "many mirrors": lambda: with_member(mirror=[{"across": "length", "at": "length/2"}] * 150),
    "all in one place": lambda: with_member(repeat=[{"index": "i", "count": "500"}]),
    "all in one place, sharing allowed": lambda: with_member(repeat=[{"index": "i", "count": "90"}]) | {
        "joints": [{"name": "All", "of": ["*"], "to": ["*"], "fasten": "none", "may_share": "50*inch"}]},
    "two hundred joints of all with all": lambda: with_member(
        group="fixed", repeat=[{"index": "i", "count": "150"}],
        **{"from": ["0*inch", "i*50*inch", "0*inch"], "to": ["length", "i*50*inch", "0*inch"]}) | {
        "joints": [{"name": f"J {word(k)}", "of": ["*"], "to": ["*"], "fasten": "none", "may_share": "1*inch"}
                   for k in range(200)]},
    "two hundred checks of all": lambda: with_member(
        group="fixed", repeat=[{"index": "i", "count": "150"}],
        **{"from": ["0*inch", "i*50*inch", "0*inch"], "to": ["length", "i*50*inch", "0*inch"]}) | {
        "checks": [{"rule": "seat load", "members": ["*"] * 20} for k in range(200)]},
    "two hundred member rules": lambda: many(190),
    "thousands of patterns for the last of many": lambda: many(150) | {"joints": [
        {"name": f"J {word(k)}", "of": [f"Board {word(149)}"] * 100, "to": [f"Board {word(149)}*"] * 100,
         "fasten": "none"} for k in range(18)]},
    "the same text thousands of times": lambda: many(150, cuts=[
        {"kind": "round over", "edges": "top front", "radius": "1*mm", "when": "length < 1*mm"}] * 3),
    "a thousand sections nobody sells": lambda: changed("boards/post/sections", ["9x9"] * 199) | {
        "boards": {f"r{word(k)}": {"sections": ["9x9"] * 99} for k in range(20)} | trestle()["boards"]},
    "an outline of six hundred chords": lambda: with_member(
        repeat=[{"index": "i", "count": "4"}],
        **{"from": ["0*inch", "i*9*inch", "under"], "to": ["length", "i*9*inch", "under"]},
        cuts=[{"kind": "outline", "points": [["0*mm", "0*mm"], ["900*mm", "0*mm"], *(
            {"to": [f"{900 - 24 * k}*mm", f"{60 + k % 2}*mm"], "through": [f"{912 - 24 * k}*mm", "80*mm"]}
            for k in range(1, 37))]}]),
    "ten thousand member rules": lambda: many(10_000),
    "everything swings": lambda: with_member(
        repeat=[{"index": "i", "count": "100"}],
        **{"from": ["0*inch", "i*1*inch", "under"], "to": ["length", "i*1*inch", "under"]}),
    "a full turn through many": lambda: many(60) | {
        "groups": {"lid": {"along": "length", "at": ["0*inch", "0*inch", "0*inch"], "opens": "360*deg"}}},
    "thousands of turns": lambda: changed("groups/lid/opens", "1000000*deg"),
    "two hundred hinges": lambda: trestle() | {
        "groups": {"lid": trestle()["groups"]["lid"]} | {
            f"g{k}": trestle()["groups"]["lid"] for k in range(190)}},
    "an outline of ten thousand points": lambda: with_member(
        cuts=[{"kind": "outline", "points": [["0*mm", "0*mm"]] * 10_000}]),
    "arcs of a million chords": lambda: with_member(cuts=[{"kind": "outline", "points": [["0*mm", "0*mm"], *(
        {"to": [f"{k * 20000}*mm", "0*mm"], "through": [f"{k * 20000 - 9000}*mm", "9000*mm"]}
        for k in range(1, 5)), *([f"{k}*mm", "90*mm"] for k in range(30))]}]),
    "thirty nine great arcs": lambda: with_member(cuts=[{"kind": "outline", "points": [["0*mm", "0*mm"], *(
        {"to": [f"{k * 2000}*mm", "0*mm"], "through": [f"{k * 2000 - 900}*mm", "900*mm"]}
        for k in range(1, 39))]}]),
    "stars cut by stars": lambda: with_member(
        cuts=[{"kind": "outline", "points": star(40, 3 * k)} for k in range(12)]),
    "stars in every board": lambda: many(60, cuts=[{"kind": "outline", "points": star(40)}]),
    "a hundred holes": lambda: with_member(
        repeat=[{"index": "i", "count": "20"}],
        cuts=[{"kind": "hole", "at": [f"{30 * k}*mm", "60*mm"], "diameter": "20*mm"} for k in range(1, 12)]),
    "a hole of ten kilometres": lambda: with_member(
        cuts=[{"kind": "hole", "at": ["0*mm", "0*mm"], "diameter": "10000000*mm"}]),
    "a hole of no size": lambda: with_member(
        cuts=[{"kind": "hole", "at": ["9*mm", "9*mm"], "diameter": "0*mm"}]),
    "a hole of less than no size": lambda: with_member(
        cuts=[{"kind": "hole", "at": ["9*mm", "9*mm"], "diameter": "-9*mm"}]),
    "an outline of no area": lambda: with_member(
        cuts=[{"kind": "outline", "points": [["0*mm", "0*mm"], ["9*mm", "0*mm"], ["90*mm", "0*mm"]]}]),
    "an outline that crosses itself": lambda: with_member(cuts=[{"kind": "outline", "points": [
        [f"{(k * 7919) % 900}*mm", f"{(k * 104729) % 140}*mm"] for k in range(40)]}]),
    "a plane a hair off the face": lambda: with_member(
        cuts=[{"kind": "plane", "at": ["0*mm", "0*mm", "under + top.thickness - 0.0000001*mm"],
               "normal": ["0.0000001", "0", "1"]}] * 12),
    "a plane with no normal": lambda: with_member(
        cuts=[{"kind": "plane", "at": ["0*mm", "0*mm", "0*mm"], "normal": ["0", "0", "0"]}]),
    "a pocket of everything": lambda: with_member(
        cuts=[{"kind": "pocket", "from": ["-9*mm"] * 3, "to": ["9000*mm", "900*mm", "900*mm"]}]),
    "a pocket of nothing": lambda: with_member(
        cuts=[{"kind": "pocket", "from": ["9*mm", "9*mm", "0*mm"], "to": ["9*mm", "9*mm", "0*mm"]}]),
    "no thickness": lambda: with_member(thickness="0*mm"),
    "a millionth thick": lambda: with_member(thickness="0.000001*mm", width="0.000001*mm"),
    "less than no width": lambda: with_member(width="0*mm - 1*mm"),
    "no length": lambda: with_member(to=["0*inch", "0*inch", "under"]),
    "a hair of length": lambda: with_member(to=["0.00000001*mm", "0*inch", "under"]),
    "the other side of the world": lambda: with_member(
        **{"from": ["20000000000*mm", "0*inch", "under"], "to": ["20000001000*mm", "0*inch", "under"]}),
    "as far as a number goes": lambda: with_member(
        **{"from": ["999999999999999*mm", "0*inch", "under"], "to": ["length", "0*inch", "under"]}),
    "width along the length": lambda: with_member(wide="right"),
    "a direction of words": lambda: with_member(thick=["0", "'x'", "0"]),
    "a plane's normal of words": lambda: with_member(
        cuts=[{"kind": "plane", "at": ["0*mm"] * 3, "normal": ["'x'", "0", "1"]}]),
    "a direction of nothing": lambda: with_member(wide=["0", "0", "0"]),
    "thick nearly along the face": lambda: with_member(thick=["1", "0.00000001", "0.0000001"]),
    "an end along the board": lambda: with_member(ends=[{"angle": "89.9999*deg"}, "square"]),
    "an end past a right angle": lambda: with_member(ends=[{"angle": "90*deg"}, {"angle": "-270*deg"}]),
    "against itself": lambda: with_member(ends=[{"against": "Lid board"}, "square"]),
    "against a later one": lambda: changed("members/0/ends", [{"against": "Beam"}, "square"]),
    "against each other": lambda: {**trestle(), "members": [
        trestle()["members"][0] | {"ends": [{"against": "Beam"}, "square"]},
        trestle()["members"][1] | {"ends": [{"against": "Post"}, {"against": "Post"}]}]},
    "mirrored far away": lambda: with_member(mirror=[{"across": "length", "at": "900000000*mm"}]),
    "lists sixty deep": lambda: changed("members/2/cuts", nested(60)),
    "lists four hundred deep": lambda: changed("members/2/cuts", nested(DEEP)),
    "lists fifty thousand deep": lambda: changed("members/2/cuts", nested(50_000)),
    "tables for texts": lambda: changed("name", {"a": {"b": {"c": nested(9)}}}),
    "a name of sixty thousand letters": lambda: changed("members/2/name", "x" * LONG),
    "a key of sixty thousand letters": lambda: trestle() | {"k" * LONG: 1},
    "five thousand unknown keys": lambda: trestle() | {f"length{k}": 1 for k in range(5_000)},
    "two hundred names nearly alike": lambda: {**many(190), "joints": [
        {"name": "J", "of": [f"Bored {word(k)} {'x' * 300}" for k in range(190)], "to": ["Post"],
         "fasten": "none"}]},
    "long names nearly alike": lambda: {**many(100, name="Y" * 590), "joints": [
        {"name": "J", "of": ["Y" * 580 + word(k) for k in range(100)], "to": ["Post"], "fasten": "none"}]},
    "a million options": lambda: changed(
        "choices/lid/options", [{"id": f"o{k}", "label": "x"} for k in range(20_000)]),
    "two hundred choices of two hundred": lambda: trestle() | {"choices": trestle()["choices"] | {
        f"c{k}": {"label": "c", "options": [{"id": f"o{j}", "label": "x"} for j in range(190)]}
        for k in range(190)}},
    "dimensions without number": lambda: trestle() | {"dimensions": {
        f"d{k}": trestle()["dimensions"]["height"] for k in range(200)}},
    "a range upside down": lambda: changed("dimensions/length/min", "90 in"),
    "a step of nothing": lambda: changed("dimensions/length/step", "0 in"),
    "a length of many digits": lambda: changed("dimensions/length/max", "9" * 500 + " in"),
    "a length that is a fraction of nothing": lambda: changed("dimensions/length/max", "1/0 in"),
    "a revision of many digits": lambda: changed("revision", 10**4000),
    "a formula that is a great number": lambda: changed("values/under", 10**4000),
    "a formula that is no number": lambda: changed("values/under", float("nan")),
    "a formula without end": lambda: changed("values/under", float("inf")),
    "a million hinges": lambda: changed("hardware/0/count", "999999999999"),
    "hinges owed to us": lambda: changed("hardware/0/count", "0 - 5"),
    "screws owed to us": lambda: changed("joints/0/per_contact", "0 - 100"),
    "screws without number": lambda: changed("joints/0/per_contact", "1000000000"),
    "screws a hair apart": lambda: changed(
        "joints/0", {"name": "J", "of": ["Beam"], "to": ["Post"], "fasten": "screws", "spacing": "0*mm"}),
    "work that gives time back": lambda: trestle() | {
        "operations": [{"name": "Rest", "standard": "fit-stay", "count": "0 - 100"}]},
    "hardware of ten thousand sizes": lambda: changed(
        "hardware/0/size", {f"s{k}": "1*inch" for k in range(5_000)}),
    "a check of ten thousand values": lambda: changed(
        "checks/0", {"rule": "seat load"} | {f"s{k}": "1*inch" for k in range(5_000)}),
    "words that are trees": lambda: changed("checks/0/words", {"a": nested(10)}),
    "proto and constructor": lambda: trestle() | {"__proto__": {"x": 1}, "constructor": {"prototype": {}}},
    "a dimension named by a dunder": lambda: trestle() | {"dimensions": {
        **trestle()["dimensions"], "__class__": trestle()["dimensions"]["height"]}},
    "a way out of the folder": lambda: changed("id", "../../etc/passwd"),
    "code for a text": lambda: with_value("'${7*7}{{7*7}}'"),
    "mark-up for a name": lambda: changed("id", "<script>alert(1)</script>"),
}


def collection() -> dict[str, Callable[[], Any]]:
    """Every hostile template by name."""
    formulas = {f"formula: {name}": (lambda text=text: with_value(text)) for name, text in ESCAPES.items()}
    return formulas | BLOW_UPS
