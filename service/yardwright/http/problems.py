"""The one table from errors to statuses, and RFC 9457 problem details for every error answer."""

from __future__ import annotations

import json
import logging
import uuid
from collections.abc import Sequence

from flask import Flask, Response, request
from werkzeug.exceptions import HTTPException

from ..domain.errors import Fault, Refused

STATUS = {
    "bad-json": 400,
    "no-key": 401,
    "wrong-key": 403,
    "not-found": 404,
    "not-allowed": 405,
    "not-acceptable": 406,
    "held": 409,
    "too-big": 413,
    "media-type": 415,
    "bad-shape": 422,
    "bad-length": 422,
    "bad-formula": 422,
    "bad-template": 422,
    "bad-job": 422,
    "no-stock": 422,
    "too-much": 422,
    "broken-seal": 422,
    "refused": 422,
    "bad-data": 500,
    "unforeseen": 500,
}
MEDIA = "application/problem+json"
_BY_STATUS = {404: "not-found", 405: "not-allowed", 406: "not-acceptable", 413: "too-big", 415: "media-type",
              400: "bad-json"}
_log = logging.getLogger("yardwright")


class Held(Refused):
    """``stop`` findings without an override keep the paper from being issued."""

    code = "held"
    title = "The paper is held back by a finding"


class NoKey(Refused):
    code = "no-key"
    title = "A key is needed"


class WrongKey(Refused):
    code = "wrong-key"
    title = "This key does not reach that far"


class NotFound(Refused):
    code = "not-found"
    title = "There is no such thing here"


class NotAcceptable(Refused):
    code = "not-acceptable"
    title = "No media type that is asked for can be given"


class MediaType(Refused):
    code = "media-type"
    title = "The body must be JSON"


def problem(code: str, title: str, detail: str, faults: Sequence[Fault] = (), instance: str = "") -> Response:
    """A problem+json answer; ``errors`` lists each fault with its pointer."""
    body = {
        "type": f"urn:yardwright:problem:{code}", "title": title, "status": STATUS[code], "detail": detail,
        "instance": instance or request.path, "code": code,
        "errors": [{"pointer": fault.pointer, "detail": fault.detail} for fault in faults],
    }
    answer = Response(json.dumps(body, ensure_ascii=False), STATUS[code], content_type=MEDIA)
    answer.headers["Cache-Control"] = "no-store"
    return answer


def install(app: Flask) -> None:
    """Every error answers as a problem; what nobody foresaw is a bare 500 with an id."""
    app.register_error_handler(Refused, _refused)
    app.register_error_handler(HTTPException, _http)
    app.register_error_handler(Exception, _unforeseen)


def _refused(error: Refused) -> Response:
    if STATUS.get(error.code, 500) >= 500:
        return _unforeseen(error)
    detail = "; ".join(f"{f.pointer}: {f.detail}" if f.pointer else f.detail for f in error.faults)
    answer = problem(error.code, error.title, detail[:2000], error.faults)
    if error.code == "no-key":
        answer.headers["WWW-Authenticate"] = 'Bearer realm="yardwright"'
    return answer


def _http(error: HTTPException) -> Response:
    code = _BY_STATUS.get(error.code or 500)
    if code is None:
        return _unforeseen(error)
    answer = problem(code, error.name, error.description or error.name)
    for name, value in error.get_headers():
        if name == "Allow":
            answer.headers[name] = value
    return answer


def _unforeseen(error: Exception) -> Response:
    number = uuid.uuid4()
    _log.error("unforeseen %s at %s", number, request.path, exc_info=error)
    return problem("unforeseen", "Something went wrong on our side",
                   "Nothing was saved or sent. Give this number when you ask about it.",
                   instance=f"urn:uuid:{number}")
