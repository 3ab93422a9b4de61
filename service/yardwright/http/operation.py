"""What every operation shares: its key, its media types, its body read strictly, its description.

``operation`` wraps a view so that the view sees only domain records, and keeps what describe.py
publishes: the schemas that the request and the answers really go through.
"""

from __future__ import annotations

import functools
import hashlib
import json
import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Any

from flask import Response, current_app, request
from marshmallow import Schema

from ..domain.errors import Fault
from ..domain.shop import Shop
from . import guard
from .problems import MediaType, NotAcceptable
from .quantities import Speaking, Voice
from .reading import read_json
from .schemas.base import load

JSON = "application/json"
PDF = "application/pdf"
SVG = "image/svg+xml"
View = Callable[..., Response]


@dataclass(frozen=True, slots=True)
class Operation:
    """One call as published. ``answers`` holds the schemas that a 200 may follow."""

    name: str
    summary: str
    body: type[Schema] | None
    answers: tuple[type[Schema], ...]
    media: tuple[str, ...]
    scope: str
    errors: tuple[int, ...]
    most_bytes: int


def operation(summary: str, *, body: type[Schema] | None = None, answers: tuple[type[Schema], ...] = (),
              media: tuple[str, ...] = (JSON,), scope: str = "open", errors: tuple[int, ...] = (),
              most_bytes: int = guard.MOST_BYTES) -> Callable[[View], View]:
    """Wrap a view: scope, Accept, Content-Type, size and body are settled before it runs."""
    def wrap(view: View) -> View:
        @functools.wraps(view)
        def run(**path: Any) -> Response:
            if scope != "open":
                guard.require(scope, "this call")
            asked(media)
            if body is None:
                return view(**path)
            request.max_content_length = most_bytes
            content = _content()
            with Voice(Speaking(shop(), _units(content), today())):
                return view(load(body(), content), **path)
        known = Operation(view.__name__, summary, body, answers, media, scope, errors, most_bytes)
        run.operation = known  # type: ignore[attr-defined]
        return run
    return wrap


def shop() -> Shop:
    return current_app.extensions["yardwright.shop"]  # type: ignore[no-any-return]


def today() -> date:
    """The date a job without one is given."""
    return current_app.extensions["yardwright.today"]()  # type: ignore[no-any-return]


def asked(media: tuple[str, ...]) -> str:
    """The media type to answer with, by Accept; NotAcceptable names what can be had."""
    chosen = request.accept_mimetypes.best_match(media, media[0] if not request.accept_mimetypes else None)
    if chosen is None:
        raise NotAcceptable(Fault("", "this call answers " + " or ".join(media)))
    return chosen


def _content() -> Any:
    if request.mimetype != JSON:
        raise MediaType(Fault("", f"Content-Type must be {JSON}"))
    return read_json(request.get_data(cache=False))


def _units(content: Any) -> str:
    for holder in (content, content.get("job"), content.get("quote")) if isinstance(content, dict) else ():
        if isinstance(holder, dict) and holder.get("units") in ("in", "mm"):
            return str(holder["units"])
    return shop().units


def answer_json(value: Any, seconds: int | None = None) -> Response:
    """JSON with a strong ETag; ``seconds`` lets it be kept and revalidated, None means no store."""
    return answer(json.dumps(value, ensure_ascii=False, allow_nan=False).encode(), JSON, seconds)


def answer_pdf(content: bytes, name: str) -> Response:
    """A PDF that is shown, and saved under a name made of plain letters."""
    made = answer(content, PDF)
    plain = re.sub(r"[^A-Za-z0-9_-]+", "-", name).strip("-")[:60] or "paper"
    made.headers["Content-Disposition"] = f'inline; filename="{plain}.pdf"'
    return made


def answer(content: bytes, media: str, seconds: int | None = None) -> Response:
    """Bytes with their media type; conditional when they may be kept."""
    made = Response(content, content_type=media)
    if seconds is None:
        made.headers["Cache-Control"] = "no-store"
        return made
    kept = f"max-age={seconds}, stale-while-revalidate=86400" if seconds else "no-cache"
    made.headers["Cache-Control"] = kept
    made.headers["Vary"] = "Accept"
    made.set_etag(hashlib.sha256(content).hexdigest()[:32])
    return made.make_conditional(request)
