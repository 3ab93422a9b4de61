"""Kinds of values with plain exponents: what may be added, compared and passed to which function."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from .model import RECORDS

Kind = str | tuple[int, int]     # (length exponent, angle exponent), or a word: truth, text, spread, leg

CONSTANTS: Mapping[str, tuple[float, Kind]] = {
    "mm": (1.0, (1, 0)), "inch": (25.4, (1, 0)), "foot": (304.8, (1, 0)),
    "deg": (1.0, (0, 1)), "pi": (3.141592653589793, (0, 0)),
}
NUMBER, LENGTH, ANGLE = (0, 0), (1, 0), (0, 1)
_NAMED: Mapping[str, tuple[int, int]] = {
    "number": NUMBER, "length": LENGTH, "area": (2, 0), "volume": (3, 0), "angle": ANGLE,
}
_WORDS = {exponents: word for word, exponents in _NAMED.items()}
ONE_OF = "one of "               # "one of none|straight": a text whose values are known


def kind_of(word: str) -> Kind:
    """The kind a declaration's word means. KeyError for a word that is none."""
    known = _NAMED.get(word)
    if known is None and not (word in ("truth", "text") or word in RECORDS or word.startswith(ONE_OF)):
        raise KeyError(word)
    return known or word


def word_of(kind: Kind) -> str:
    """A kind in words; a product without a name of its own is written out."""
    if isinstance(kind, str):
        return "text" if kind.startswith(ONE_OF) else kind
    return _WORDS.get(kind) or f"length^{kind[0]}" + (f" angle^{kind[1]}" if kind[1] else "")


def is_text(kind: Kind) -> bool:
    """Whether it is a text, of known words or any."""
    return isinstance(kind, str) and (kind == "text" or kind.startswith(ONE_OF))


def alike(a: Kind, b: Kind) -> bool:
    """Whether two values may be added, compared or stand in each other's place."""
    return a == b or (is_text(a) and is_text(b))


def times(a: Kind, b: Kind, sign: int) -> Kind | None:
    """The kind of a product (sign 1) or quotient (-1); None when it is nothing to multiply."""
    if isinstance(a, str) or isinstance(b, str):
        return None
    product = (a[0] + sign * b[0], a[1] + sign * b[1])
    return product if max(abs(product[0]), abs(product[1])) <= 6 else None


Rule = Callable[[Sequence[Kind]], Kind | None]      # None: these arguments do not fit


def _same(args: Sequence[Kind]) -> Kind | None:
    quantities = all(not isinstance(a, str) and a == args[0] for a in args)
    return args[0] if quantities else None


def _fixed(*wanted: Kind, gives: Kind, spare: int = 0) -> Rule:
    least = len(wanted) - spare
    return lambda args: gives if least <= len(args) and tuple(args) == wanted[: len(args)] else None


def _root(args: Sequence[Kind]) -> Kind | None:
    (kind,) = args if len(args) == 1 else ("",)
    if isinstance(kind, str) or kind[0] % 2 or kind[1] % 2:
        return None
    return (kind[0] // 2, kind[1] // 2)


def _choose(args: Sequence[Kind]) -> Kind | None:
    if len(args) != 3 or args[0] != "truth" or not alike(args[1], args[2]):
        return None
    return args[1] if args[1] == args[2] else "text"


_L4 = (LENGTH,) * 4
# name -> (how it is called, rule)
FUNCTIONS: Mapping[str, tuple[str, Rule]] = {
    "min": ("min(a, b, ...), all of one kind", lambda args: _same(args) if len(args) >= 2 else None),
    "max": ("max(a, b, ...), all of one kind", lambda args: _same(args) if len(args) >= 2 else None),
    "abs": ("abs(a)", lambda args: _same(args) if len(args) == 1 else None),
    "round": ("round(number)", _fixed(NUMBER, gives=NUMBER)),
    "floor": ("floor(number)", _fixed(NUMBER, gives=NUMBER)),
    "ceil": ("ceil(number)", _fixed(NUMBER, gives=NUMBER)),
    "round_to": ("round_to(a, step), both of one kind", lambda args: _same(args) if len(args) == 2 else None),
    "floor_to": ("floor_to(a, step), both of one kind", lambda args: _same(args) if len(args) == 2 else None),
    "ceil_to": ("ceil_to(a, step), both of one kind", lambda args: _same(args) if len(args) == 2 else None),
    "sqrt": ("sqrt(number) or sqrt(area)", _root),
    "sin": ("sin(angle)", _fixed(ANGLE, gives=NUMBER)),
    "cos": ("cos(angle)", _fixed(ANGLE, gives=NUMBER)),
    "tan": ("tan(angle)", _fixed(ANGLE, gives=NUMBER)),
    "asin": ("asin(number)", _fixed(NUMBER, gives=ANGLE)),
    "acos": ("acos(number)", _fixed(NUMBER, gives=ANGLE)),
    "atan": ("atan(number)", _fixed(NUMBER, gives=ANGLE)),
    "choose": ("choose(truth, a, b), a and b of one kind", _choose),
    "spread": ("spread(span, width, least gap, most gap[, step]), all lengths",
               _fixed(*_L4, LENGTH, gives="spread", spare=1)),
    "l_leg": ("l_leg(board width, thickness, kerf, wide), all lengths", _fixed(*_L4, gives="leg")),
}
