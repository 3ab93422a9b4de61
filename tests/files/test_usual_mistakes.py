"""Mistakes that a shop owner makes: each is told with its line, its entry, what is wrong, what would do."""

from __future__ import annotations

from pathlib import Path

import pytest

from builders import DATA, demo_shop
from yardwright.domain.errors import BadTemplate
from yardwright.domain.piece.trial import trial
from yardwright.files.templates import load
from yardwright.files.trial_report import report_lines
from yardwright.quoting.makeable import not_makeable

PAGE = (DATA / "templates" / "README.md").read_text(encoding="utf-8")
DUCKBOARD = PAGE.split("```toml\n")[2].split("```")[0]  # the second example of the format page
SLAT_ENDS = (
    'from = ["0*inch", "row*pitch", "bearer.thickness"]\nto = ["length", "row*pitch", "bearer.thickness"]'
)
BEARER_ENDS = 'from = ["4*inch", "0*inch", "0*inch"]\nto = ["4*inch", "depth", "0*inch"]'
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
    "a number for a length": ('from = ["4*inch"', 'from = ["4"', '["4"', "Multiply by inch or mm"),
    "a length plus a number": (
        '"bearer.thickness + slat.thickness"',
        '"bearer.thickness + 1"',
        "thickness + 1",
        "length + number makes no sense. Multiply by inch or mm",
    ),
    "two coordinates": (
        'from = ["4*inch", "0*inch", "0*inch"]',
        'from = ["4*inch", "0*inch"]',
        '["4*inch", "0*inch"]',
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


def told(tmp_path: Path, old: str, new: str) -> tuple[str, list[str]]:
    """The spoilt text, and every line that ``check`` says of it, whether it can be read or not."""
    assert old in DUCKBOARD
    text, path = DUCKBOARD.replace(old, new), tmp_path / "my.toml"
    path.write_text(text, encoding="utf-8")
    try:
        template = load(path)
    except BadTemplate as refused:
        return text, [f"{fault.pointer}  {fault.detail}" for fault in refused.faults]
    return text, report_lines(trial(template, demo_shop(), 4, also=not_makeable), template, path)


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


@pytest.mark.parametrize("name", FORMAT)
def test_one_mistake_in_the_format_is_told_once_or_twice_and_never_hides_in_others(
    name: str, tmp_path: Path
) -> None:
    old, new, _, _ = FORMAT[name]
    assert 1 <= len(told(tmp_path, old, new)[1]) <= 4


def test_the_page_as_it_stands_has_nothing_to_tell(tmp_path: Path) -> None:
    assert told(tmp_path, LAST, LAST)[1] == []


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
