"""Reading a formula: a small precedence-climbing parser that checks kinds as it goes.

Bounded before anything is built: text, nodes and nesting, so that no formula can exhaust the stack.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from string import ascii_letters
from typing import Any

from ..errors import BadFormula, Fault
from .evaluate import Budget
from .kinds import CONSTANTS, FUNCTIONS, NUMBER, ONE_OF, Kind, alike, is_text, kind_of, times, word_of
from .model import RECORDS, Formula
from .nearest import nearest

MOST_CHARS, MOST_NODES, MOST_DEEP = 400, 200, 24
_TOKEN = re.compile(
    r"\s*([0-9]{1,15}(?:\.[0-9]{0,15})?|\.[0-9]{1,15}|[A-Za-z_][A-Za-z0-9_]*|'[^']*'|\"[^\"]*\"|[=!<>]=|\S)")
# What a token is by its first letter; those of _LONGER are nothing when they stand alone.
_SORT = {**dict.fromkeys("0123456789", "number"), **dict.fromkeys(ascii_letters + "_", "name"),
         **dict.fromkeys("'\"", "text"), **dict.fromkeys("=!-+*/()<>,.", "mark"), "": "end"}
_LONGER = ("'", '"', "=", "!")
_RANK = {"or": 1, "and": 2, "==": 4, "!=": 4, "<": 4, "<=": 4, ">": 4, ">=": 4,
         "+": 5, "-": 5, "*": 6, "/": 6}
_NOT_RANK, _COMPARE_RANK, _SIGN_RANK = 3, 4, 7

Node = tuple[Any, Kind]


def read(text: str, names: Mapping[str, str], where: str = "", expect: str | None = None,
         budget: Budget | None = None) -> Formula:
    """A formula read against declared names (flat dotted name -> kind word), its kind checked.

    A name of kind "spread" or "leg" also gives its fields; "one of none|straight" is a text whose
    comparisons with any other word are refused. A budget shared by many formulas bounds how many words and
    marks they hold together. Errors: BadFormula at ``where``, saying what would be right.
    """
    if not isinstance(text, str) or len(text) > MOST_CHARS:
        raise BadFormula(Fault(where, f"A formula is a text of at most {MOST_CHARS} characters."))
    reader = _Reader(text, names, where, budget or Budget())
    tree, kind = reader.whole()
    word = word_of(kind)
    if expect is not None and word != expect and not alike(kind, kind_of(expect)):
        hint = _unit_hint(word, expect)
        raise BadFormula(Fault(where, f"'{text}' is of kind {word}; {expect} is wanted here.{hint}"))
    if "^" in word:
        raise BadFormula(Fault(where, f"'{text}' comes out as {word}, which is no kind of value."))
    return Formula(text, tree, word, where, reader.nodes)


def _unit_hint(is_word: str, wanted: str) -> str:
    hints = {("number", "length"): " Multiply by inch or mm.", ("number", "angle"): " Multiply by deg.",
             ("length", "number"): " Divide by inch, mm or another length."}
    return hints.get((is_word, wanted), "")


def near(name: str, known: Iterable[str]) -> str:
    """`` Did you mean 'seat_depth'?``, or nothing when no name is near."""
    found = nearest(name, known, 2)
    return f" Did you mean {' or '.join(repr(f) for f in found)}?" if found else ""


def _sort(token: str) -> str:
    """number, name, text, mark or end: by its first letter, but for the point that begins a number."""
    return "number" if token[:1] == "." and len(token) > 1 else _SORT.get(token[:1], "")


class _Reader:
    """One pass over one text; holds only where it is and how much it has built."""

    def __init__(self, text: str, names: Mapping[str, str], where: str, budget: Budget) -> None:
        self.text, self.names, self.where = text, names, where
        self.tokens = [*_TOKEN.findall(text), ""]
        self.nodes = self.deep = self.at = 0
        self.token: str = self.tokens[0]
        budget.steps -= len(self.tokens)
        if budget.steps < 0:
            raise self.wrong("all formulas together hold more words and marks than one template may.")
        if self.token[:1] not in _SORT or self.token in _LONGER:
            raise self._no_token()

    def wrong(self, detail: str, at: int | None = None) -> BadFormula:
        """What is wrong at a token, the present one unless told."""
        starts = [found.start(1) for found in _TOKEN.finditer(self.text)]
        start = [*starts, len(self.text)][self.at if at is None else at]
        shown = self.text if len(self.text) <= 80 else f"...{self.text[max(0, start - 40):start + 40]}..."
        return BadFormula(Fault(self.where, f"'{shown}', character {start + 1}: {detail}"))

    def advance(self) -> None:
        self.at += 1
        token = self.token = self.tokens[self.at]
        if token[:1] not in _SORT or token in _LONGER:
            raise self._no_token()

    def _no_token(self) -> BadFormula:
        hints = {"=": " Compare with ==.", "^": " Write x*x.", "&": " Write and.", "|": " Write or.",
                 "!": " Write not or !=.", "%": " Write a share as a number: 0.25."}
        return self.wrong(f"{self.token!r} is nothing a formula knows.{hints.get(self.token, '')}")

    def take(self, mark: str) -> None:
        if self.token != mark:
            raise self.wrong(f"'{mark}' is missing" + (f" before {self.token!r}." if self.token else "."))
        self.advance()

    def whole(self) -> Node:
        if self.text in self.names:      # as most are
            self.nodes = 1
            return ["name", self.text], kind_of(self.names[self.text])
        node = self.expression(0)
        if self.token:
            raise self.wrong(f"{self.token!r} is not expected here.{self._left_over()}")
        if self.nodes > MOST_NODES:
            raise self.wrong(f"more than {MOST_NODES} parts; give a part a name of its own.")
        return node

    def _left_over(self) -> str:
        """What was probably meant by two values side by side, or by a comma outside a function."""
        sort, before = _sort(self.token), _sort(self.tokens[self.at - 1])
        if self.token == "," and before == "number":
            return " A decimal stands with a point: 0.25."
        if sort == before == "number":
            return " A mixed number is a sum in brackets: (1 + 1/4)*inch."
        if sort in ("name", "number") and before in ("name", "number"):
            return " A * is missing before it."
        return ""

    def expression(self, rank: int) -> Node:
        self.deep += 1
        if self.deep > MOST_DEEP:
            raise self.wrong(f"nested more than {MOST_DEEP} deep; give a part a name of its own.")
        left = self.leading()
        while (its := _RANK.get(self.token, 0)) > rank:
            operator, at = self.token, self.at
            self.advance()
            right = self.expression(its)
            self.nodes += 1
            left = [operator, left[0], right[0]], self.joined(operator, left, right, at)
            if its == _COMPARE_RANK and _RANK.get(self.token) == _COMPARE_RANK:
                raise self.wrong("comparisons are not chained; join two with and.")
        self.deep -= 1
        return left

    def leading(self) -> Node:
        at, token, sort = self.at, self.token, _sort(self.token)
        if sort == "end":
            raise self.wrong("a value is missing at the end." if self.text.strip() else "it is empty.")
        self.advance()
        if sort == "name":
            if token == "not":
                return self._negated(self.expression(_NOT_RANK), at)
            made = self.called(token, at) if self.token == "(" else self.named(token, at)
            return self.fields(made) if self.token == "." else made
        if sort == "number":
            self.nodes += 1
            return float(token), NUMBER
        if sort == "text":
            self.nodes += 1
            return ["text", token[1:-1]], "text"
        if token == "-":
            return self._signed(self.expression(_SIGN_RANK), at)
        if token == "(":
            inside = self.expression(0)
            self.take(")")
            return self.fields(inside) if self.token == "." else inside
        raise self.wrong(f"a value is missing before {token!r}.", at)

    def _negated(self, of: Node, at: int) -> Node:
        if of[1] != "truth":
            raise self.wrong(f"not wants a truth, this is {word_of(of[1])}.", at)
        self.nodes += 1
        return ["not", of[0]], "truth"

    def _signed(self, of: Node, at: int) -> Node:
        if isinstance(of[1], str):
            raise self.wrong(f"'-' wants a quantity, this is {word_of(of[1])}.", at)
        self.nodes += 1
        return ["neg", of[0]], of[1]

    def named(self, name: str, at: int) -> Node:
        while self.token == "." and self._dotted(name):
            self.advance()
            name += "." + self.token
            self.advance()
        self.nodes += 1
        if name in ("true", "false"):
            return name == "true", "truth"
        if name in self.names:
            return ["name", name], kind_of(self.names[name])
        if name in CONSTANTS:
            return CONSTANTS[name]
        raise self.wrong(f"'{name}' is not declared.{near(name, [*self.names, *CONSTANTS])}", at)

    def _dotted(self, name: str) -> bool:
        """Whether the dot belongs to a declared dotted name rather than to a record's field."""
        following = self.tokens[self.at + 1]
        return name not in self.names or (_sort(following) == "name" and f"{name}.{following}" in self.names)

    def fields(self, of: Node) -> Node:
        while self.token == ".":
            self.advance()
            known = RECORDS.get(word_of(of[1]), {})
            if self.token not in known:
                have = f"it has {', '.join(known)}" if known else f"{word_of(of[1])} has no fields"
                raise self.wrong(f"no field '{self.token}': {have}.")
            self.nodes += 1
            of = ["field", of[0], self.token], kind_of(known[self.token])
            self.advance()
        return of

    def called(self, name: str, at: int) -> Node:
        if name not in FUNCTIONS:
            raise self.wrong(f"'{name}' is no function.{near(name, FUNCTIONS)}", at)
        self.take("(")
        arguments = [] if self.token == ")" else [self.expression(0)]
        while self.token == ",":
            self.advance()
            arguments.append(self.expression(0))
        self.take(")")
        usage, rule = FUNCTIONS[name]
        kind = rule([k for _, k in arguments])
        if kind is None:
            got = ", ".join(word_of(k) for _, k in arguments) or "nothing"
            raise self.wrong(f"{usage} is wanted, not {name}({got}).", at)
        self.nodes += 1
        head = ["choose"] if name == "choose" else ["call", name]
        return [*head, *(tree for tree, _ in arguments)], kind

    def joined(self, operator: str, left: Node, right: Node, at: int) -> Kind:
        a, b = left[1], right[1]
        if operator in ("+", "-"):
            if a == b and not isinstance(a, str):
                return a
        elif operator in ("*", "/"):
            if (product := times(a, b, 1 if operator == "*" else -1)) is not None:
                return product
        elif operator in ("and", "or"):
            if a == b == "truth":
                return "truth"
        elif operator in ("==", "!="):
            if alike(a, b) and word_of(a) not in RECORDS:
                self._known_word(left, right, at)
                return "truth"
        elif a == b and not isinstance(a, str):
            return "truth"
        hint = _unit_hint(word_of(b), word_of(a)) or _unit_hint(word_of(a), word_of(b))
        raise self.wrong(f"{word_of(a)} {operator} {word_of(b)} makes no sense.{hint}", at)

    def _known_word(self, left: Node, right: Node, at: int) -> None:
        """A choice compared with a word that is none of its options would be silently false."""
        for (tree, _), (_, kind) in ((left, right), (right, left)):
            if isinstance(kind, str) and kind.startswith(ONE_OF) and is_text(kind) and tree[0] == "text":
                options = kind.removeprefix(ONE_OF).split("|")
                if tree[1] not in options:
                    hint = near(tree[1], options)
                    raise self.wrong(f"'{tree[1]}' is none of {', '.join(options)}.{hint}", at)
