"""Lengths as people write them; what could mean two things is refused with the candidates."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from ..errors import BadLength, Fault
from .length import FOOT, INCH, MM, UNITS
from .writing import say

LIKELY_NM = (0, 40 * FOOT)            # a bare number outside this that fits in the other unit is asked about
MOST_NM = 100_000 * MM                # no yard piece or run is longer than 100 m
MOST_CHARS = 40

_SPELT = {
    "mm": "mm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
    "cm": "cm", "centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm",
    "m": "m", "metre": "m", "metres": "m", "meter": "m", "meters": "m",
    '"': "in", "in": "in", "in.": "in", "ins": "in", "inch": "in", "inches": "in",
    "'": "ft", "ft": "ft", "ft.": "ft", "foot": "ft", "feet": "ft",
}
_VULGAR = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3",
    "⅔": "2/3", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅒": "1/10",
}
_PLAIN = {
    **dict.fromkeys("′ʹ’‘ʼ´`", "'"), **dict.fromkeys("″ʺ”“„", '"'), **dict.fromkeys("‐‑‒–—−", "-"),
    **dict.fromkeys("⁄∕", "/"), **dict.fromkeys("\u00a0\u2007\u2009\u202f\u2002\u2003\t", " "),
    **dict(zip("⁰¹²³⁴⁵⁶⁷⁸⁹", "0123456789", strict=True)),
    **dict(zip("₀₁₂₃₄₅₆₇₈₉", "0123456789", strict=True)),
}

_NUM = r"(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)"
_FRACTION = r"[0-9]+ ?/ ?[0-9]+"
_VALUE = rf"(?:[0-9]+[ -]{_FRACTION}|{_FRACTION}|[0-9]{{1,3}}(?: [0-9]{{3}})+|{_NUM})"
_INCH_MARK = r"(?:in\.?|ins|inch|inches|\")?"
_SINGLE = re.compile(rf"({_VALUE}) ?([a-z]+\.?|['\"])?")
_FEET = re.compile(rf"({_VALUE}) ?(?:ft\.?|foot|feet|') ?(?:- ?|, )?({_VALUE}) ?{_INCH_MARK}")
_DASHED = re.compile(rf"([0-9]+) ?- ?({_VALUE}) ?{_INCH_MARK}")
_SPACED = re.compile(rf"([0-9]+) ([0-9]+(?: {_FRACTION})?) ?{_INCH_MARK}")


@dataclass(frozen=True, slots=True)
class Reading:
    """A length as read; ``text`` is what was written, ``note`` what the reader should look at again."""

    nm: int
    text: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Trouble:
    """Why a text is no length; ``candidates`` are the lengths it may mean, each readable as it stands."""

    code: str
    detail: str
    candidates: tuple[str, ...] = ()


class _Stop(Exception):
    def __init__(self, code: str, detail: str, candidates: tuple[str, ...] = ()) -> None:
        self.trouble = Trouble(code, detail, candidates)
        super().__init__(detail)


def read(text: str, unit: str | None, likely_nm: tuple[int, int] = LIKELY_NM) -> Reading:
    """The length a person wrote. ``unit`` ("in" | "mm") is what a bare number means; None refuses one.

    Errors: BadLength, whose detail says what is wrong and what the text may mean. Exact to the nm.
    """
    answer = examine(text, unit, likely_nm)
    if isinstance(answer, Trouble):
        ask = f" Did you mean {' or '.join(answer.candidates)}?" if answer.candidates else ""
        raise BadLength(Fault("", answer.detail + ask))
    return answer


def examine(text: str, unit: str | None, likely_nm: tuple[int, int] = LIKELY_NM) -> Reading | Trouble:
    """As ``read``, but trouble is returned, for a form that offers the candidates."""
    try:
        nm, note = _read(_plain(text), unit, likely_nm)
    except _Stop as stop:
        return stop.trouble
    return Reading(nm, text.strip(), note)


def _plain(text: str) -> str:
    """The text in ASCII: one kind of quote, dash, slash and space; ½ as " 1/2"."""
    if len(text) > MOST_CHARS:
        raise _Stop("unreadable", f"A length is at most {MOST_CHARS} characters long.")
    spelt = "".join(f" {_VULGAR[c]}" if c in _VULGAR else _raised(text, i) for i, c in enumerate(text))
    spaced = re.sub(" +", " ", spelt.replace("''", '"')).strip().lower()
    if not spaced:
        raise _Stop("empty", "Nothing is written.")
    return re.sub("- (?=[0-9]+/)", "-", spaced) if _VULGAR.keys() & set(text) else spaced


def _raised(text: str, i: int) -> str:
    """A character in ASCII; a raised digit after an ordinary one starts a fraction."""
    starts = text[i] in "⁰¹²³⁴⁵⁶⁷⁸⁹" and i > 0 and text[i - 1] in "0123456789"
    return (" " if starts else "") + _PLAIN.get(text[i], text[i])


def _read(text: str, unit: str | None, likely_nm: tuple[int, int]) -> tuple[int, str]:
    if text.startswith("-"):
        raise _Stop("negative", "A length is not negative.")
    if single := _SINGLE.fullmatch(text):
        return _single(single[1], single[2] or "", unit, likely_nm)
    if feet := _FEET.fullmatch(text):
        return _feet_inches(feet[1], feet[2])
    _ask_about_two_numbers(text)
    raise _unreadable(text)


def _single(value: str, spelt: str, unit: str | None, likely_nm: tuple[int, int]) -> tuple[int, str]:
    if spelt and spelt not in _SPELT:
        raise _Stop("unreadable", f"'{spelt}' is no unit known here: mm, cm, m, in, ft, ' or \".")
    if spelt:
        return _one(_values(value, _SPELT[spelt]), _SPELT[spelt]), ""
    candidates = _in_either_unit(value)
    if unit is None:
        raise _Stop("no-unit", f"{value} has no unit.", candidates)
    if "/" in value and unit == "mm":
        raise _Stop("ambiguous", "A fraction is usually inches, but mm are asked here.", candidates)
    values = _values(value, unit)
    here, swapped = (round(values[0] * UNITS[u]) for u in ((unit, "mm" if unit == "in" else "in")))
    least, most = likely_nm
    if len(values) == 1 and not least <= here <= most and least <= swapped <= most:
        raise _Stop("unlikely", f"{value} {unit} is far from what is likely here.",
                    candidates if unit == "in" else candidates[::-1])
    return _one(values, unit), ""


def _in_either_unit(value: str) -> tuple[str, ...]:
    """What a bare number may mean, in inches and in mm."""
    grouped = " " in value and "/" not in value
    inches = () if grouped else _say_all(_values(value, "in"), "in")
    if not (told := inches + _say_all(_values(value, "mm"), "mm")):
        raise _Stop("too-long", "That is more than 100 m.")
    return told


def _say_all(values: list[Fraction], unit: str, said_in: str = "") -> tuple[str, ...]:
    lengths = (round(v * UNITS[unit]) for v in values)
    return tuple(say(nm, said_in or unit) for nm in lengths if nm <= MOST_NM)


def _feet_inches(feet: str, inches: str) -> tuple[int, str]:
    if not feet.isdigit():
        raise _Stop("unreadable", f"Feet before inches are whole, {feet} is not.")
    alternatives = [int(feet) * 12 + v for v in _values(inches, "in")]
    nm = _one(alternatives, "in", "ft")
    over = Fraction(nm, INCH) - int(feet) * 12
    if over >= 100:
        raise _Stop("unreadable", f"{inches} inches beside feet cannot be meant.")
    return nm, f"12 in or more beside feet: read as {say(nm, 'ft')}." if over >= 12 else ""


def _values(text: str, unit: str) -> list[Fraction]:
    """What a written number may be; more than one when it can be read in two ways."""
    if "/" in text:
        return _fraction_values(text)
    if " " in text:
        if unit in ("in", "ft"):
            raise _Stop("unreadable", f"{text} is two numbers: write feet as 5' 3\".")
        return [Fraction(text.replace(" ", ""))]
    decimal = Fraction("0" + text.replace(",", ".") if text[0] in ".," else text.replace(",", "."))
    grouped = re.fullmatch(r"[1-9][0-9]{0,2}[.,][0-9]{3}", text)
    # 1,610 is a thousand to some and a decimal to others; in metres only the decimal is possible,
    # and a point is taken for a thousand only where nobody reads thousandths of a unit off a tape.
    if grouped and unit != "m" and ("," in text or unit == "mm"):
        return [decimal, Fraction(re.sub("[.,]", "", text))]
    return [decimal]


def _fraction_values(text: str) -> list[Fraction]:
    parts = re.fullmatch(r"(?:([0-9]+)[ -])?([0-9]+) ?/ ?([0-9]+)", text)
    assert parts is not None
    whole, top, bottom = parts[1], parts[2], int(parts[3])
    if bottom == 0:
        raise _Stop("zero-denominator", f"{text}: nothing can be divided by 0.")
    share = Fraction(int(top), bottom)
    if share < 1:
        return [Fraction(whole or 0) + share]
    if whole:
        raise _Stop("bad-fraction", f"{top}/{bottom} beside a whole number must be less than 1.")
    # 31/2 is what a hurried thumb makes of 3 1/2.
    splits = [(top[:-n], top[-n:]) for n in (1, 2) if len(top) > n and top[-n] != "0"]
    return [int(a) + Fraction(int(b), bottom) for a, b in splits if int(b) < bottom] + [share]


def _one(alternatives: list[Fraction], unit: str, said_in: str = "") -> int:
    if len(alternatives) > 1:
        told = _say_all(alternatives, unit, said_in)
        raise _Stop("ambiguous", "This can be read in more than one way.", told)
    nm = round(alternatives[0] * UNITS[unit])
    if nm > MOST_NM:
        raise _Stop("too-long", "That is more than 100 m.")
    return nm


def _ask_about_two_numbers(text: str) -> None:
    """``5-3 1/2`` may be feet and inches or a difference; ``5 3`` feet and inches or a slip."""
    for pattern in (_DASHED, _SPACED):
        if (two := pattern.fullmatch(text)) is None:
            continue
        first, second = int(two[1]), _values(two[2], "in")[0]
        if pattern is _DASHED and second < 1:
            meant = [first + second, first - second]
        elif second < 12:
            meant = [first * 12 + second, first - second] if pattern is _DASHED else [first * 12 + second]
        else:
            meant = [Fraction(first), second]
        lengths = [round(v * INCH) for v in meant if 0 < v * INCH <= MOST_NM]
        told = tuple(say(nm, "ft" if nm >= FOOT else "in") for nm in lengths)
        raise _Stop("ambiguous", "Two numbers without marks can be read in more than one way.", told)


def _unreadable(text: str) -> _Stop:
    if re.search(r"[0-9] ?/ ?(?:in\b|[\"'])?$", text):
        return _Stop("half-typed", "The fraction lacks its lower number.")
    if re.search(r"/.*/", text):
        return _Stop("unreadable", "Two fraction bars in one length.")
    if re.fullmatch(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+\.[0-9]+ ?(?:mm)?", text):
        return _Stop("ambiguous", "Write it without the thousand mark.",
                     (text.replace(",", "").replace("mm", "").strip() + " mm",))
    return _Stop("unreadable", "This is no length: write it like 44 in, 5 1/2 in, 3' 8\" or 1118 mm.")
