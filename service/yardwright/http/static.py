"""The phone app's files at the same origin, and the published contract."""

from __future__ import annotations

import mimetypes
import os
from functools import lru_cache
from pathlib import Path

from flask import Blueprint, Response, current_app, request
from werkzeug.exceptions import MethodNotAllowed

from ..domain.errors import Fault
from .operation import JSON, answer
from .problems import NotFound

ROOT = Path(__file__).parents[3]
CONTRACT = ROOT / "openapi" / "openapi.json"
MEDIA = {".webmanifest": "application/manifest+json", ".js": "text/javascript; charset=utf-8",
         ".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".svg": "image/svg+xml"}

files = Blueprint("files", __name__)


@files.get("/openapi.json")
def openapi() -> Response:
    return answer(_content(CONTRACT, CONTRACT.stat().st_mtime_ns), JSON, 300)


@files.get("/")
def index() -> Response:
    return shell("index.html")


@files.get("/<path:name>")
def shell(name: str) -> Response:
    """One file of the app; always revalidated, so that a new version is seen at once."""
    folder = app_folder()
    path = (folder / name).resolve()
    hidden = any(part.startswith(".") for part in Path(name).parts)
    if hidden or not path.is_relative_to(folder) or not path.is_file():
        _only_posted()
        raise NotFound(Fault("", f"there is nothing at /{name[:80]}"))
    media = MEDIA.get(path.suffix) or mimetypes.guess_type(path.name)[0] or "application/octet-stream"
    return answer(_content(path, path.stat().st_mtime_ns), media, 0)


def _only_posted() -> None:
    """A call of the contract asked with GET by mistake: 405 and which method is right, not 404."""
    adapter = current_app.create_url_adapter(request)
    if adapter is not None and adapter.test(method="POST"):
        raise MethodNotAllowed(["OPTIONS", "POST"])


def app_folder() -> Path:
    return Path(os.environ.get("YARDWRIGHT_PWA", ROOT / "pwa")).resolve()


@lru_cache(maxsize=200)
def _content(path: Path, _changed: int) -> bytes:
    return path.read_bytes()
