"""The phone app's files at the same origin, and the published contract."""

from __future__ import annotations

import mimetypes
import os
from functools import lru_cache
from pathlib import Path

from flask import Blueprint, Response
from werkzeug.routing import PathConverter

from ..domain.errors import Fault
from .operation import JSON, answer
from .problems import NotFound

ROOT = Path(__file__).parents[3]
CONTRACT = ROOT / "openapi" / "openapi.json"
MEDIA = {".webmanifest": "application/manifest+json", ".js": "text/javascript; charset=utf-8",
         ".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".svg": "image/svg+xml"}

files = Blueprint("files", __name__)


class ShellPath(PathConverter):
    """Any path but those of the contract, so that a call asked by the wrong method is a 405, not a 404."""

    regex = r"(?!v1/|healthz$|readyz$|openapi\.json$)[^/].*?"


@files.get("/openapi.json")
def openapi() -> Response:
    return answer(_content(CONTRACT, CONTRACT.stat().st_mtime_ns), JSON, 300)


@files.get("/")
def index() -> Response:
    return shell("index.html")


@files.get("/<shell:name>")
def shell(name: str) -> Response:
    """One file of the app; always revalidated, so that a new version is seen at once."""
    folder = app_folder()
    path = (folder / name).resolve()
    hidden = any(part.startswith(".") for part in Path(name).parts)
    if hidden or not path.is_relative_to(folder) or not path.is_file():
        raise NotFound(Fault("", f"there is nothing at /{name[:80]}"))
    media = MEDIA.get(path.suffix) or mimetypes.guess_type(path.name)[0] or "application/octet-stream"
    return answer(_content(path, path.stat().st_mtime_ns), media, 0)


def app_folder() -> Path:
    return Path(os.environ.get("YARDWRIGHT_PWA", ROOT / "pwa")).resolve()


@lru_cache(maxsize=200)
def _content(path: Path, _changed: int) -> bytes:
    return path.read_bytes()
