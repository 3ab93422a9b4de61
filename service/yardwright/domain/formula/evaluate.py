"""Working a formula's tree out. Anything that cannot be a finite answer is a BadFormula in words."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from operator import add, mul, sub
from typing import Any

from ..errors import BadFormula, Fault
from .model import Formula, Leg, Spread, Value
from .trade import SLACK, l_leg, spread

MOST = 1e15                      # mm: beyond this a double no longer holds a micrometre
STEPS = 10_000
_RECORDS = (Spread, Leg)


class Spent(ValueError):
    """No work is left of a budget."""

    def __init__(self) -> None:
        super().__init__("more work than one template may ask for")


@dataclass(slots=True)
class Budget:
    """Countable work left; share one over many formulas, and what is built by them, to bound them together.

    One step is about what one node of a formula costs: near two microseconds on a common machine.
    """

    steps: int = STEPS

    def spend(self, steps: int = 1) -> None:
        """Take that many steps; Spent when fewer are left."""
        self.steps -= steps
        if self.steps < 0:
            raise Spent

    def afford(self, steps: int) -> None:
        """Spent when fewer are left, none taken: for work foreseen as a whole and counted as it is done."""
        if steps > self.steps:
            raise Spent


def evaluate(formula: Formula | Any, values: Mapping[str, Value], budget: Budget | None = None) -> Any:
    """The value of a formula (or of a bare tree) for the given names; lengths mm, areas mm2, angles degrees.

    Comparisons, floor and ceil forgive a floating error of 1e-9, so that 60 inches are 60 inches
    however they were worked out. Errors: BadFormula only.
    """
    tree, nodes = (formula.tree, formula.nodes) if isinstance(formula, Formula) else (formula, 0)
    try:
        (budget or Budget()).spend(nodes or _nodes(tree))
        return _value(tree, values)
    except (ValueError, ArithmeticError, RecursionError, TypeError, LookupError, AttributeError) as wrong:
        text, where = (formula.text, formula.where) if isinstance(formula, Formula) else ("", "")
        said = str(wrong) if isinstance(wrong, ValueError) else "it cannot be worked out"
        raise BadFormula(Fault(where, f"'{text}': {said}." if text else f"{said}.")) from wrong


def _nodes(tree: Any) -> int:
    """How many parts a tree has."""
    return 1 + sum(map(_nodes, tree)) if isinstance(tree, list) else 1


def _value(tree: Any, values: Mapping[str, Value]) -> Any:
    if not isinstance(tree, list):
        return tree if isinstance(tree, bool) else _finite(tree)
    head = tree[0]
    if head == "name":
        return _named(tree[1], values)
    if (binary := _BINARY.get(head)) is not None:
        found = binary(_value(tree[1], values), _value(tree[2], values))
        return found if found.__class__ is float and -MOST <= found <= MOST else _finite(found)
    if head == "call":
        return _call(tree[1], [_value(t, values) for t in tree[2:]])
    if head == "text":
        return tree[1]
    return _special(tree, values)


def _special(tree: Sequence[Any], values: Mapping[str, Value]) -> Any:
    """Whatever does not work out all its parts, or has only one."""
    head, first = tree[0], _value(tree[1], values)
    if head == "choose":
        return _value(tree[2 if first else 3], values)
    if head in ("and", "or"):
        return first if first is (head == "or") else _value(tree[2], values)
    if head == "field":
        return _field(first, tree[2])
    return _finite(_UNARY[head](first))


def _named(name: str, values: Mapping[str, Value]) -> Any:
    found = values.get(name)
    if found.__class__ is float and -MOST <= found <= MOST:
        return found
    if found is not None:
        return _finite(found) if isinstance(found, float | int) else found
    owner, _, field = name.rpartition(".")
    if owner in values:
        return _field(values[owner], field)
    raise ValueError(f"'{name}' has no value")


def _field(record: Any, name: str) -> Any:
    if not isinstance(record, _RECORDS) or name not in record.__dataclass_fields__:
        raise ValueError(f"no field '{name}' here")
    found = getattr(record, name)
    return found if isinstance(found, str) else float(found)


def _finite(value: Any) -> Any:
    if value.__class__ is float and -MOST <= value <= MOST:
        return value
    if isinstance(value, bool):
        return value
    if not math.isfinite(value) or abs(value) > MOST:
        raise ValueError("the result is no finite length or number")
    return float(value)


def _divide(a: float, b: float) -> float:
    if b == 0:
        raise ValueError("division by 0")
    return a / b


def _equal(a: Any, b: Any) -> bool:
    if isinstance(a, str | bool) or isinstance(b, str | bool):
        return bool(a == b)
    return bool(abs(a - b) <= SLACK * max(1.0, abs(a), abs(b)))


_UNARY: Mapping[str, Callable[..., Any]] = {"neg": lambda a: -a, "not": lambda a: not a}
_BINARY: Mapping[str, Callable[..., Any]] = {
    "+": add, "-": sub, "*": mul, "/": _divide,
    "==": _equal,
    "!=": lambda a, b: not _equal(a, b),
    "<": lambda a, b: a < b and not _equal(a, b),
    "<=": lambda a, b: a < b or _equal(a, b),
    ">": lambda a, b: a > b and not _equal(a, b),
    ">=": lambda a, b: a > b or _equal(a, b),
}


def _floor(x: float) -> float:
    return float(math.floor(x + SLACK * max(1.0, abs(x))))


def _ceil(x: float) -> float:
    return -_floor(-x)


def _step(how: Callable[[float], float]) -> Callable[[float, float], float]:
    def rounded(x: float, step: float) -> float:
        if step <= 0:
            raise ValueError("a step must be above 0")
        return how(x / step) * step
    return rounded


def _arc(function: Callable[[float], float]) -> Callable[[float], float]:
    def arc(x: float) -> float:
        if abs(x) > 1 + SLACK:
            raise ValueError("no angle has a sine or cosine beyond 1")
        return math.degrees(function(max(-1.0, min(1.0, x))))
    return arc


def _sqrt(x: float) -> float:
    if x < -SLACK:
        raise ValueError("square root of a negative")
    return math.sqrt(max(0.0, x))


def _tan(angle_deg: float) -> float:
    if abs(math.cos(math.radians(angle_deg))) < SLACK:
        raise ValueError("the tangent of a right angle has no end")
    return math.tan(math.radians(angle_deg))


_FUNCTIONS: Mapping[str, Callable[..., Any]] = {
    "min": min, "max": max, "abs": abs, "sqrt": _sqrt,
    "floor": _floor, "ceil": _ceil, "round": lambda x: _floor(x + 0.5),
    "round_to": _step(lambda x: _floor(x + 0.5)), "floor_to": _step(_floor), "ceil_to": _step(_ceil),
    "sin": lambda a: math.sin(math.radians(a)), "cos": lambda a: math.cos(math.radians(a)), "tan": _tan,
    "asin": _arc(math.asin), "acos": _arc(math.acos), "atan": lambda x: math.degrees(math.atan(x)),
    "spread": spread, "l_leg": l_leg,
}


def _call(name: str, arguments: Sequence[Any]) -> Any:
    result = _FUNCTIONS[name](*arguments)
    return result if isinstance(result, _RECORDS) else _finite(result)
