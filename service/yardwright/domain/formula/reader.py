"""Reading a formula: a small precedence-climbing parser that checks kinds as it goes.

Bounded before anything is built: text, nodes and nesting, so that no formula can exhaust the stack.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from ..errors import BadFormula, Fault
from .evaluate import Budget
from .kinds import CONSTANTS, FUNCTIONS, ONE_OF, Kind, alike, is_text, kind_of, times, word_of
from .model import RECORDS, Formula
from .nearest import nearest

MOST_CHARS, MOST_NODES, MOST_DEEP = 400, 200, 24
_TOKEN = re.compile(
    r"\s*(?:(?P<number>[0-9]{1,15}(?:\.[0-9]{0,15})?|\.[0-9]{1,15})|(?P<name>[A-Za-z_][A-Za-z0-9_]*)"
    r"|(?P<text>'[^']*'|\"[^\"]*\")|(?P<mark>==|!=|<=|>=|[-+*/()<>,.])|(?P<end>$))")
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
    tree, kind = _Reader(text, names, where, budget or Budget()).whole()
    if expect is not None and not alike(kind, kind_of(expect)):
        hint = _unit_hint(word_of(kind), expect)
        raise BadFormula(Fault(where, f"'{text}' is of kind {word_of(kind)}; {expect} is wanted here.{hint}"))
    word = word_of(kind)
    if "^" in word:
        raise BadFormula(Fault(where, f"'{text}' comes out as {word}, which is no kind of value."))
    return Formula(text, tree, word, where)


def _unit_hint(is_word: str, wanted: str) -> str:
    hints = {("number", "length"): " Multiply by inch or mm.", ("number", "angle"): " Multiply by deg.",
             ("length", "number"): " Divide by inch, mm or another length."}
    return hints.get((is_word, wanted), "")


def near(name: str, known: Iterable[str]) -> str:
    """`` Did you mean 'seat_depth'?``, or nothing when no name is near."""
    found = nearest(name, known, 2)
    return f" Did you mean {' or '.join(repr(f) for f in found)}?" if found else ""


class _Reader:
    """One pass over one text; holds only where it is and how much it has built."""

    def __init__(self, text: str, names: Mapping[str, str], where: str, budget: Budget) -> None:
        self.text, self.names, self.where, self.budget = text, names, where, budget
        self.at = self.nodes = self.deep = 0
        self.sort = self.token = self.before = ""
        self.advance()

    def wrong(self, detail: str, at: int | None = None) -> BadFormula:
        start = self.start if at is None else at
        shown = self.text if len(self.text) <= 80 else f"...{self.text[max(0, start - 40):start + 40]}..."
        return BadFormula(Fault(self.where, f"'{shown}', character {start + 1}: {detail}"))

    def advance(self) -> None:
        self.budget.steps -= 1
        found = _TOKEN.match(self.text, self.at)
        if found is None:
            self.start = self.at + len(self.text[self.at:]) - len(self.text[self.at:].lstrip())
            raise self.wrong(f"{self.text[self.start]!r} is nothing a formula knows.{self._mark_hint()}")
        self.before, self.sort = self.sort, str(found.lastgroup)
        self.token = found[self.sort]
        self.start, self.at = found.start(self.sort), found.end()
        if self.budget.steps < 0:
            raise self.wrong("all formulas together hold more words and marks than one template may.")

    def _mark_hint(self) -> str:
        hints = {"=": " Compare with ==.", "^": " Write x*x.", "&": " Write and.", "|": " Write or.",
                 "!": " Write not or !=.", "%": " Write a share as a number: 0.25."}
        return hints.get(self.text[self.start], "")

    def take(self, mark: str) -> None:
        if self.token != mark or self.sort != "mark":
            raise self.wrong(f"'{mark}' is missing" + (f" before {self.token!r}." if self.token else "."))
        self.advance()

    def node(self, tree: Any, kind: Kind) -> Node:
        self.nodes += 1
        if self.nodes > MOST_NODES:
            raise self.wrong(f"more than {MOST_NODES} parts; give a part a name of its own.")
        return tree, kind

    def whole(self) -> Node:
        node = self.expression(0)
        if self.sort != "end":
            raise self.wrong(f"{self.token!r} is not expected here.{self._left_over()}")
        return node

    def _left_over(self) -> str:
        """What was probably meant by two values side by side, or by a comma outside a function."""
        if self.sort == "mark" and self.token == "," and self.before == "number":
            return " A decimal stands with a point: 0.25."
        if self.sort == "number" and self.before == "number":
            return " A mixed number is a sum in brackets: (1 + 1/4)*inch."
        if self.sort in ("name", "number") and self.before in ("name", "number"):
            return " A * is missing before it."
        return ""

    def expression(self, rank: int) -> Node:
        self.deep += 1
        if self.deep > MOST_DEEP:
            raise self.wrong(f"nested more than {MOST_DEEP} deep; give a part a name of its own.")
        left = self.leading()
        while (operator := self._operator()) and (its := _RANK[operator]) > rank:
            at = self.start
            self.advance()
            right = self.expression(its)
            left = self.node([operator, left[0], right[0]], self.joined(operator, left, right, at))
            if its == _COMPARE_RANK and _RANK.get(self._operator()) == _COMPARE_RANK:
                raise self.wrong("comparisons are not chained; join two with and.")
        self.deep -= 1
        return left

    def _operator(self) -> str:
        known = self.sort == "mark" or self.token in ("and", "or")
        return self.token if known and self.token in _RANK else ""

    def leading(self) -> Node:
        at, token, sort = self.start, self.token, self.sort
        if sort == "end":
            raise self.wrong("a value is missing at the end." if self.text.strip() else "it is empty.")
        self.advance()
        if sort == "number":
            return self.node(float(token), (0, 0))
        if sort == "text":
            return self.node(["text", token[1:-1]], "text")
        if token == "not" and sort == "name":
            return self._negated(self.expression(_NOT_RANK), at)
        if sort == "name":
            return self.fields(self.called(token, at) if self.token == "(" else self.named(token, at))
        if token == "-":
            return self._signed(self.expression(_SIGN_RANK), at)
        if token == "(":
            inside = self.expression(0)
            self.take(")")
            return self.fields(inside)
        raise self.wrong(f"a value is missing before {token!r}.", at)

    def _negated(self, of: Node, at: int) -> Node:
        if of[1] != "truth":
            raise self.wrong(f"not wants a truth, this is {word_of(of[1])}.", at)
        return self.node(["not", of[0]], "truth")

    def _signed(self, of: Node, at: int) -> Node:
        if isinstance(of[1], str):
            raise self.wrong(f"'-' wants a quantity, this is {word_of(of[1])}.", at)
        return self.node(["neg", of[0]], of[1])

    def named(self, name: str, at: int) -> Node:
        while self.sort == "mark" and self.token == "." and self._dotted(name):
            self.advance()
            name += "." + self.token
            self.advance()
        if name in ("true", "false"):
            return self.node(name == "true", "truth")
        if name in self.names:
            return self.node(["name", name], kind_of(self.names[name]))
        if name in CONSTANTS:
            value, kind = CONSTANTS[name]
            return self.node(value, kind)
        raise self.wrong(f"'{name}' is not declared.{near(name, [*self.names, *CONSTANTS])}", at)

    def _dotted(self, name: str) -> bool:
        """Whether the dot belongs to a declared dotted name rather than to a record's field."""
        following = _TOKEN.match(self.text, self.at)
        further = f"{name}.{following['name']}" if following else ""
        return name not in self.names or further in self.names

    def fields(self, of: Node) -> Node:
        while self.sort == "mark" and self.token == ".":
            self.advance()
            known = RECORDS.get(word_of(of[1]), {})
            if self.token not in known:
                have = f"it has {', '.join(known)}" if known else f"{word_of(of[1])} has no fields"
                raise self.wrong(f"no field '{self.token}': {have}.")
            of = self.node(["field", of[0], self.token], kind_of(known[self.token]))
            self.advance()
        return of

    def called(self, name: str, at: int) -> Node:
        if name not in FUNCTIONS:
            raise self.wrong(f"'{name}' is no function.{near(name, FUNCTIONS)}", at)
        self.take("(")
        arguments = [] if self.token == ")" else [self.expression(0)]
        while self.sort == "mark" and self.token == ",":
            self.advance()
            arguments.append(self.expression(0))
        self.take(")")
        usage, rule = FUNCTIONS[name]
        kind = rule([k for _, k in arguments])
        if kind is None:
            got = ", ".join(word_of(k) for _, k in arguments) or "nothing"
            raise self.wrong(f"{usage} is wanted, not {name}({got}).", at)
        head = ["choose"] if name == "choose" else ["call", name]
        return self.node([*head, *(tree for tree, _ in arguments)], kind)

    def joined(self, operator: str, left: Node, right: Node, at: int) -> Kind:
        a, b = left[1], right[1]
        if operator in ("and", "or"):
            if (a, b) == ("truth", "truth"):
                return "truth"
        elif operator in ("*", "/"):
            if (product := times(a, b, 1 if operator == "*" else -1)) is not None:
                return product
        elif operator in ("==", "!="):
            if alike(a, b) and word_of(a) not in RECORDS:
                self._known_word(left, right, at)
                return "truth"
        elif a == b and not isinstance(a, str):
            return a if operator in ("+", "-") else "truth"
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
