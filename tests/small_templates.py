"""Small templates as plain data for the tests of templates and pieces."""

from __future__ import annotations

import copy
from typing import Any

from yardwright.domain.template import Template, read_template


def trestle(**changes: Any) -> dict[str, Any]:
    """Two posts, a beam between them and a lid board on a hinge: enough to read, place and turn."""
    data: dict[str, Any] = {
        "id": "trestle",
        "revision": 1,
        "name": "Trestle",
        "timbers": ["western-red-cedar"],
        "finishes": ["none", "clear-oil"],
        "dimensions": {
            "length": {
                "label": "Length",
                "default": {"in": "40 in", "mm": "1000 mm"},
                "min": "20 in",
                "max": "60 in",
                "step": {"in": "1/2 in", "mm": "10 mm"},
            },
            "height": {"label": "Height", "default": "20 in", "min": "10 in", "max": "30 in", "step": "1 in"},
        },
        "choices": {
            "lid": {
                "label": "Lid",
                "default": "yes",
                "options": [{"id": "yes", "label": "With a lid"}, {"id": "no", "label": "Without"}],
            }
        },
        "boards": {"post": {"sections": ["4x4"]}, "top": {"sections": ["1x6"]}},
        "values": {"under": "height - choose(lid == 'yes', top.thickness, 0*inch)"},
        "overall": {
            "length": "length",
            "depth": "choose(lid == 'yes', top.width, post.width)",
            "height": "height",
        },
        "fit": {
            "envelope": {
                "length": "length",
                "depth": "5.5*inch",
                "height": "height",
                "open_height": "height + 5.6*inch",
                "open_front": "1/8*inch",
                "open_behind": "1*inch",
            }
        },
        "groups": {"lid": {"along": "length", "at": ["0*inch", "top.width", "height"], "opens": "-90*deg"}},
        "members": [
            {
                "name": "Post",
                "board": "post",
                "from": ["0*inch", "0*inch", "0*inch"],
                "to": ["0*inch", "0*inch", "under"],
                "wide": "right",
                "thick": "back",
                "mirror": [{"across": "length", "at": "length/2"}],
            },
            {
                "name": "Beam",
                "board": "post",
                "from": ["post.width", "0*inch", "under - post.width"],
                "to": ["length - post.width", "0*inch", "under - post.width"],
                "wide": "up",
                "thick": "back",
                "ends": [{"against": "Post"}, {"against": "Post"}],
            },
            {
                "name": "Lid board",
                "board": "top",
                "group": "lid",
                "when": "lid == 'yes'",
                "from": ["0*inch", "0*inch", "under"],
                "to": ["length", "0*inch", "under"],
                "wide": "back",
                "thick": "up",
            },
        ],
        "joints": [
            {"name": "Beam to posts", "of": ["Beam"], "to": ["Post"], "fasten": "screws", "per_contact": "3"}
        ],
        "hardware": [
            {"name": "Hinge", "kind": "hinge", "length": "length - 1/4*inch", "when": "lid == 'yes'"}
        ],
        "checks": [{"rule": "seat load", "members": ["Lid*"], "when": "lid == 'yes'"}],
    }
    return data | changes


def changed(path: str, value: Any) -> dict[str, Any]:
    """The trestle with one entry replaced (``members/0/wide``), or taken out where the value is None."""
    data = copy.deepcopy(trestle())
    *way, last = path.split("/")
    at: Any = data
    for key in way:
        at = at[int(key)] if isinstance(at, list) else at[key]
    if value is None:
        del at[last]
    elif isinstance(at, list):
        at[int(last)] = value
    else:
        at[last] = value
    return data


def one_member(**member: Any) -> Template:
    """A template of one board member; ``cuts``, ``ends`` and so on as given."""
    board: dict[str, Any] = {
        "name": "Board",
        "board": "top",
        "from": ["0*inch", "0*inch", "0*inch"],
        "to": ["40*inch", "0*inch", "0*inch"],
        "wide": "back",
        "thick": "up",
    }
    data = trestle(members=[board | member], joints=[], groups={}, hardware=[], checks=[])
    return read_template(data)
