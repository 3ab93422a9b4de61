"""Mistakes that a shop owner makes: each is told with its line, its entry, what is wrong, what would do."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builders import DATA, demo_shop
from format_page import ON_BEARERS as DUCKBOARD
from yardwright.domain.errors import BadTemplate
from yardwright.domain.piece.trial import trial
from yardwright.files.templates import load
from yardwright.files.trial_report import report_lines
from yardwright.quoting.held import held
from yardwright.quoting.makeable import not_makeable

SLAT_ENDS = (
    'from = ["0*inch", "row*pitch", "bearer.thickness"]\nto = ["length", "row*pitch", "bearer.thickness"]'
)
BEARER_ENDS = 'from = ["k*bay", "0*inch", "0*inch"]\nto = ["k*bay", "depth", "0*inch"]'
LAST = 'words = {use = "shelf"}'

# what is mended wrongly, into what, on which line it must be told (by what stands there), the words of it
FORMAT = {
    "a member misspelt": (
        'of = ["Slat"]',
        'of = ["Slatt"]',
        "Slatt",
        "no member 'Slatt'; did you mean 'Slat'?",
    ),
    "a board misspelt": (
        'board = "slat"',
        'board = "slatt"',
        '"slatt"',
        "no board 'slatt'; did you mean 'slat'?",
    ),
    "a quote forgotten": ('label = "Depth"', 'label = "Depth', '"Depth', "no closing quote"),
    "no quotes": ('label = "Depth"', "label = Depth", "= Depth", 'a text stands in quotes: "Depth"'),
    "curly quotes": ('label = "Depth"', "label = “Depth”", "“", "write straight ones"),
    "a bracket forgotten": (
        '"bearer.thickness"]\nto',
        '"bearer.thickness"\nto',
        'from = ["0*inch", "row',
        "not closed",
    ),
    "true in capitals": (
        'fasten = "screws" ',
        'fasten = "screws"\nglue = True #',
        "True",
        "true or false in small",
    ),
    "an entry twice": ('label = "Depth"', 'label = "Depth"\nlabel = "Deep"', '"Deep"', "stands twice"),
    "a table for a list": (
        '[[members]]\nname = "Bearer"',
        '[members]\nname = "Bearer"',
        "[members]",
        "[[members]]",
    ),
    "a unit misspelt": (
        'min = "24 in"',
        'min = "24 inhces"',
        "inhces",
        "'inhces' is no unit known here: mm, cm",
    ),
    "no unit": ('min = "24 in"', 'min = "24"', '= "24"', "Did you mean 24 in or 24 mm?"),
    "a bare number": ('min = "24 in"', "min = 24", "min = 24", 'a length with its unit, as "44 in"'),
    "a fraction gone wrong": ('in = "1/2 in"', 'in = "1//2 in"', "1//2", "Two fraction bars"),
    "min and max swapped": (
        'min = "24 in"\nmax = "60 in"',
        'min = "60 in"\nmax = "24 in"',
        'max = "24 in"',
        "less than min 60 in; are they the wrong way round?",
    ),
    "a default outside": (
        'default = "18 in"',
        'default = "48 in"',
        '"48 in"',
        "outside min 12 in to max 24 in",
    ),
    "a step of nothing": ('step = "1/2 in"', 'step = "0 in"', '"0 in"', "more than nothing"),
    "a mixed number": ('radius = "1/4*inch"', 'radius = "1 1/4*inch"', "1 1/4", "(1 + 1/4)*inch"),
    "a decimal comma": (
        'radius = "1/4*inch"',
        'radius = "0,25*inch"',
        "0,25",
        "A decimal stands with a point",
    ),
    "no times sign": ('radius = "1/4*inch"', 'radius = "1/4 inch"', "1/4 inch", "A * is missing before it"),
    "a number for a length": ('from = ["k*bay"', 'from = ["4"', '["4"', "Multiply by inch or mm"),
    "a length plus a number": (
        '"bearer.thickness + slat.thickness"',
        '"bearer.thickness + 1"',
        "thickness + 1",
        "length + number makes no sense. Multiply by inch or mm",
    ),
    "two coordinates": (
        'from = ["k*bay", "0*inch", "0*inch"]',
        'from = ["k*bay", "0*inch"]',
        '["k*bay", "0*inch"]',
        "a list of 3 formulas",
    ),
    "one equals sign": ("edges == 'round'", "edges = 'round'", "edges = 'r", "Compare with =="),
    "an option misspelt": ("edges == 'round'", "edges == 'rounded'", "'rounded'", "Did you mean 'round'?"),
    "a value misspelt": ("row*pitch", "row*ptich", "ptich", "Did you mean 'pitch'"),
    "values in a ring": (
        '"rows.width + rows.gap"',
        '"rows.width + twice"\ntwice = "pitch*2"',
        "+ twice",
        "goes in a ring: pitch uses twice uses pitch",
    ),
    "an unknown entry": (
        'wide = "back"',
        'wide = "back"\nwidht = "3*inch"',
        "widht",
        "did you mean 'width'?",
    ),
    "a direction misspelt": ('wide = "right"', 'wide = "rigth"', "rigth", "did you mean 'right'?"),
    "a name with a number": (
        'name = "Bearer"',
        'name = "Bearer 2"',
        "Bearer 2",
        "copies are numbered by themselves",
    ),
    "no name": ('name = "Bearer"\n', "", '[[members]]\nboard = "bearer"', "name: is missing"),
    "screws not counted": (
        'per_contact = "2" ',
        "#",
        "[[joints]]",
        "say how many screws: per_contact or spacing",
    ),
    "a fastening misspelt": ('fasten = "screws"', 'fasten = "screw"', '"screw"', "did you mean 'screws'?"),
    "an edge misspelt": ('edges = "top front"', 'edges = "top frnt"', "top frnt", "did you mean 'front'?"),
    "a check misspelt": ('rule = "shelf load"', 'rule = "shelf lode"', "lode", "did you mean 'shelf load'?"),
    "a check's word misspelt": (LAST, 'words = {use = "shelve"}', "shelve", "use is one of shelf"),
    "no id": ('id = "duckboard"\n', "", 'name = "Duckboard"', "id: is missing"),
}
TRIED = {
    "a section that is not sold": (
        'sections = ["2x2", "45x45"]',
        'sections = ["7x7"]',
        "7x7",
        "the shop sells 1x2",
    ),
    "a timber misspelt": (
        '"western-red-cedar"',
        '"western-red-ceder"',
        "ceder",
        "did you mean 'western-red-cedar'?",
    ),
    "gap bounds reversed": (
        "1/4*inch, 1/2*inch",
        "1/2*inch, 1/4*inch",
        "rows = ",
        "0 <= least gap <= most gap",
    ),
    "a gap out of its bounds": (
        "1/4*inch, 1/2*inch, shop.step",
        "1/4*inch, 0.26*inch, 3*inch",
        "rows = ",
        "outside 1/4 in to 17/64 in: wider bounds",
    ),
    "members that float": (
        SLAT_ENDS,
        SLAT_ENDS.replace("thickness", "thickness + 1*inch"),
        "[[joints]]",
        "Slat 1 touches none of Bearer; the nearest, Bearer 1, is 1 in away, below it: move it until",
    ),
    "a joint forgotten": (
        DUCKBOARD[DUCKBOARD.index("[[joints]]") : DUCKBOARD.index("[[checks]]")],
        "",
        "[[members]]",
        "is held by nothing: name it in a joint",
    ),
    "members that clash": (
        BEARER_ENDS,
        BEARER_ENDS.replace('"0*inch"]', '"1/4*inch"]').replace('"depth", "0*inch"]', '"depth", "1/4*inch"]'),
        "[[members]]",
        "1/4 in deep: move or shorten one",
    ),
    "another size than asked": (
        '"bearer.thickness + slat.thickness"',
        '"bearer.thickness"',
        "height = ",
        "mend the members, or what [overall] says",
    ),
    "an envelope too small": (
        'height = "2.75*inch"',
        'height = "1*inch"',
        '"1*inch"',
        "say at least that much",
    ),
    "a part too small": (
        'to = ["length"',
        'to = ["1*inch"',
        "[[members]]",
        "1 in long, too small to work: the shop's saws take 3 in and more",
    ),
    "a part too long": (
        'max = "60 in"',
        'max = "400 in"',
        "[[members]]",
        "a lower max, or a section that is sold",
    ),
    "a part wider than its board": (
        'width = "rows.width"',
        'width = "30*inch"',
        "[[members]]",
        "a wider or thicker section, or a smaller width",
    ),
    "half a copy": (
        'count = "rows.count"',
        'count = "rows.count/2"',
        "repeat = ",
        "a whole number of copies",
    ),
    "coordinates in the wrong order": (
        BEARER_ENDS,
        'from = ["0*inch", "k*bay", "0*inch"]\nto = ["depth", "k*bay", "0*inch"]',
        "[[members]]",
        "Bearer cannot be placed: it runs right from `from` to `to`, and wide is that way too: is",
    ),
    "the wrong face": (
        'wide = "back"\nthick = "up"\ncuts',
        'wide = "front"\nthick = "up"\ncuts',
        'depth = "depth"\nheight = "bearer',
        "overall.depth: Slat 1 reaches to y = -3 3/8 in, where 0 is its front: move it",
    ),
    "wide and thick swapped": (
        'wide = "back"\nthick = "up"\ncuts',
        'wide = "up"\nthick = "back"\ncuts',
        "height = ",
        "comes out 4 7/8 in high where 2 1/4 in is asked, 2 5/8 in too much, from Bearer 1 to Slat 1",
    ),
    "one board too many for the span": (
        '"rows.width + rows.gap"',
        '"(depth - rows.width)/rows.count"',
        "[[members]]",
        "Slat 1 and Slat 2 overlap, 29/64 in deep: move or shorten one",
    ),
    "the gap forgotten": (
        '"rows.width + rows.gap"',
        '"rows.width"',
        "[[members]]",
        "Slat 1 and Slat 2 leave no gap, where the spread that counts them allows 1/4 in to 1/2 in",
    ),
    "a spread inside a longer formula": (
        'pitch = "rows.width + rows.gap"',
        'pitch = "rows.width + spread(39*inch, 5.5*inch, 1/4*inch, 0.26*inch, 3*inch).gap"',
        "pitch = ",
        "values.pitch: the gaps come out 3 in, outside 1/4 in to 17/64 in: wider bounds",
    ),
    "a member of a joint that is elsewhere": (
        'of = ["Slat"]\nto = ["Bearer"]',
        'of = ["Slat"]\nto = ["Slat"]',
        "[[joints]]",
        "Slat 1 touches none of Slat; the nearest, Slat 2, is 9/32 in away, behind it",
    ),
    "larger than asked, and saying so": (
        'length = "length"\ndepth = "depth"\nheight = "bearer.thickness + slat.thickness"',
        'length = "length + 5*inch"\ndepth = "depth"\nheight = "bearer.thickness + slat.thickness"',
        'length = "length + 5',
        "overall.length: says 41 in where the customer asks for a length of 36 in: let it say",
    ),
    "a choice that nothing uses": (
        " when = \"edges == 'round' and row == 0\"",
        ' when = "row == 0"',
        "[choices.edges]",
        "choices.edges: no formula uses it, so that the customer is asked for what changes nothing",
    ),
    "a dimension that nothing uses": (
        "[choices.edges]",
        '[dimensions.rail]\nlabel = "Rail"\ndefault = "2 in"\nmin = "1 in"\nmax = "3 in"\nstep = "1 in"\n'
        "[choices.edges]",
        "[dimensions.rail]",
        "dimensions.rail: no formula uses it",
    ),
    "a board that nothing is made of": (
        "[boards.bearer]",
        '[boards.rail]\nsections = ["2x4"]\n[boards.bearer]',
        "[boards.rail]",
        "no member is made of it, though the shop must sell it",
    ),
    "a support forgotten": (
        'bearers = "ceil((length - bearer.width)/(24*inch)) + 1"',
        'bearers = "2"',
        "[[checks]]",
        "its quote would be held by shelf load: Slat: too weak for its load.",
    ),
    "a thing off the ground": (
        'from = ["k*bay", "0*inch", "0*inch"]\nto = ["k*bay", "depth", "0*inch"]',
        'from = ["k*bay", "0*inch", "1*inch"]\nto = ["k*bay", "depth", "1*inch"]',
        "[[members]]",
        "Bearer 1 is the lowest and ends 1 in above the ground, z = 0",
    ),
    "goods that are not sold": (
        LAST,
        LAST + '\n[[hardware]]\nname = "Feet"\nkind = "foott"',
        'kind = "foott"',
        "the shop sells no 'foott'; did you mean 'foot'?",
    ),
    "work without a time": (
        LAST,
        LAST + '\n[[operations]]\nname = "Sand"\nstandard = "sandd"',
        '"sandd"',
        "no time standard is called 'sandd'; did you mean 'sand'?",
    ),
}


# mistakes that only a larger piece can have; the template that is spoilt before the rest
POST = 'from = ["post_x + k*post_pitch", "front", "lift"]'
MITRES = 'ends = [{angle = "-45*deg", about = "thick"}, {angle = "-45*deg", about = "thick"}]'
LARGER = {
    "a lid that hits the back": (
        "storage-bench",
        'opens = "-(90*deg',
        'opens = "-(140*deg',
        '[[members]]\nname = "Seat board"',
        "with the lid or door at",
    ),
    "a lid that turns the other way": (
        "storage-bench",
        'opens = "-(90*deg',
        'opens = "(90*deg',
        '[[members]]\nname = "Seat board"',
        "with the lid or door at",
    ),
    "a leg that ends short": (
        "storage-bench",
        POST,
        POST.replace('"lift"', '"lift + 1/4*inch"'),
        '[[members]]\nname = "Front middle post"',
        "ends 1/4 in above what the piece stands on: let it reach down as far",
    ),
    "ends the wrong way round": (
        "storage-bench",
        'ends = ["square", {against = "Back panel board"}]',
        'ends = [{against = "Back panel board"}, "square"]',
        '[[members]]\nname = "Side panel board"',
        "the two ends cross",
    ),
    "mitres turned over": (
        "planter-box",
        MITRES,
        MITRES.replace("-45", "45"),
        '[[members]]\nname = "Cap long"',
        "overlap",
    ),
}


def told(tmp_path: Path, old: str, new: str, whole: str = DUCKBOARD) -> tuple[str, list[str]]:
    """The spoilt text, and every line that ``check`` says of it, whether it can be read or not."""
    assert old in whole
    text, path = whole.replace(old, new), tmp_path / "my.toml"
    path.write_text(text, encoding="utf-8")
    try:
        template = load(path)
    except BadTemplate as refused:
        return text, [f"{fault.pointer}  {fault.detail}" for fault in refused.faults]
    report = trial(template, demo_shop(), 4, at_corners=1, also=not_makeable, usually=held)
    return text, report_lines(report, template, path)


def places(text: str, mark: str) -> list[str]:
    """``my.toml:12`` of every line on which the mark begins."""
    found, at = [], text.find(mark)
    while at >= 0:
        found.append(f"my.toml:{text[:at].count(chr(10)) + 1}  ")
        at = text.find(mark, at + 1)
    return found


@pytest.mark.parametrize("name", [*FORMAT, *TRIED])
def test_a_usual_mistake_is_told_with_its_line_and_what_would_do(name: str, tmp_path: Path) -> None:
    old, new, mark, words = (FORMAT | TRIED)[name]
    text, lines = told(tmp_path, old, new)
    assert any(words in line and line.startswith(tuple(places(text, mark))) for line in lines), lines


@pytest.mark.parametrize("name", LARGER)
def test_a_usual_mistake_in_a_larger_piece_is_told_too(name: str, tmp_path: Path) -> None:
    template, old, new, mark, words = LARGER[name]
    whole = (DATA / "templates" / f"{template}.toml").read_text(encoding="utf-8")
    text, lines = told(tmp_path, old, new, whole)
    assert any(words in line and line.startswith(tuple(places(text, mark))) for line in lines), lines


@pytest.mark.parametrize("name", FORMAT)
def test_one_mistake_in_the_format_is_told_once_or_twice_and_never_hides_in_others(
    name: str, tmp_path: Path
) -> None:
    old, new, _, _ = FORMAT[name]
    assert 1 <= len(told(tmp_path, old, new)[1]) <= 4


def test_the_page_as_it_stands_has_nothing_to_tell(tmp_path: Path) -> None:
    assert told(tmp_path, LAST, LAST)[1] == []


def test_every_fault_that_is_tried_is_told_with_its_file_and_line(tmp_path: Path) -> None:
    for old, new, _, _ in TRIED.values():
        for line in told(tmp_path, old, new)[1][::2]:
            assert re.match(r"my\.toml:\d+  \S", line), line


def test_a_file_saved_with_a_mark_of_its_encoding_is_read_and_one_in_another_encoding_is_told(
    tmp_path: Path,
) -> None:
    path = tmp_path / "my.toml"
    path.write_bytes(b"\xef\xbb\xbf" + DUCKBOARD.replace("\n", "\r\n").encode())
    assert load(path).id == "duckboard"
    path.write_bytes(DUCKBOARD.replace("Front edge", "Vorderkante groß").encode("latin-1"))
    with pytest.raises(BadTemplate, match="save it as UTF-8") as refused:
        load(path)
    assert refused.value.faults[0].pointer == places(DUCKBOARD, 'label = "Front edge"')[0].strip()
