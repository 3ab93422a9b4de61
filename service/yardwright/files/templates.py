"""A template's TOML file, its faults told by file and line instead of by pointer."""

from __future__ import annotations

import tomllib
from pathlib import Path

from ..domain.errors import BadTemplate, Fault
from ..domain.template import Template, read_template
from .slips import slip, text_of
from .tomldoc import line_of


def load(path: Path, ours: bool = False) -> Template:
    """The template in ``path``; raises BadTemplate with every fault as ``storage-bench.toml:41``.

    Which checks there are is not looked up for ``ours``, the program's own, which the tests try: all the
    checks would be imported for it at every start.
    """
    text = text_of(path)
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as trouble:
        raise BadTemplate(slip(path.name, text, trouble)) from trouble
    try:
        read = read_template(data, path.name)
        return read if ours else _with_known_checks(read)
    except BadTemplate as trouble:
        raise BadTemplate(*(in_file(path.name, text, f) for f in trouble.faults)) from trouble


def _with_known_checks(template: Template) -> Template:
    from ..domain.checks import with_known_checks

    return with_known_checks(template)


def in_file(name: str, text: str, fault: Fault) -> Fault:
    """A fault with its pointer turned into file:line; the key's own path stays in the detail."""
    keys = [_key(k) for k in fault.pointer.split("/")[1:]]
    said = f"{_path(keys)}: {fault.detail}" if keys else fault.detail
    return Fault(f"{name}:{line_of(text, keys)}", said)


def _key(part: str) -> str | int:
    return int(part) if part.isdigit() else part.replace("~1", "/").replace("~0", "~")


def _path(keys: list[str | int]) -> str:
    return ".".join(f"{k + 1}" if isinstance(k, int) else k for k in keys)
