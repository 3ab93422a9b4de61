"""Who may ask, how much, and the headers that every answer carries."""

from __future__ import annotations

import hmac
import ipaddress
import os

from flask import Flask, Response, request

from ..domain.errors import Fault
from .problems import NoKey, WrongKey

MOST_BYTES = 256 * 1024
MOST_SEALED_BYTES = 8 * 1024 * 1024    # a quote sent back for paper is as long as the answer was
SCOPES = ("open", "customer", "shop")
_LOCAL_NAMES = ("localhost", "127.0.0.1", "[::1]")

HEADERS = {
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(self), geolocation=(), microphone=(), payment=(), usb=()",
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; "
        "connect-src 'self'; font-src 'self'; manifest-src 'self'; worker-src 'self'; "
        "frame-src 'self' blob:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"),
}


def install(app: Flask) -> None:
    """Limits on what comes in, headers on what goes out."""
    app.config["MAX_CONTENT_LENGTH"] = MOST_BYTES
    app.after_request(_headers)


def _headers(answer: Response) -> Response:
    for name, value in HEADERS.items():
        answer.headers.setdefault(name, value)
    answer.headers.pop("Server", None)
    return answer


def scope() -> str:
    """ "shop", "customer" or "open": what the caller's key reaches; on loopback without keys, everything."""
    keys = {"shop": os.environ.get("YARDWRIGHT_SHOP_KEY", ""),
            "customer": os.environ.get("YARDWRIGHT_CUSTOMER_KEY", "")}
    if not any(keys.values()):
        return "shop" if _on_loopback() else "open"
    kind, _, given = request.headers.get("Authorization", "").partition(" ")
    if not given:
        return "open"
    for name, key in keys.items():
        if kind.lower() == "bearer" and key and hmac.compare_digest(given.strip().encode(), key.encode()):
            return name
    raise NoKey(Fault("", "the key in Authorization is not one of this shop's"))


def require(needed: str, what: str) -> None:
    """NoKey or WrongKey unless the caller's scope reaches ``needed``."""
    have = scope()
    if SCOPES.index(have) >= SCOPES.index(needed):
        return
    if have == "open":
        raise NoKey(Fault("", f"{what} needs the {needed} key: Authorization: Bearer <key>"))
    raise WrongKey(Fault("", f"{what} needs the {needed} key"))


def _on_loopback() -> bool:
    """Both ends local and no proxy between, so that a web page cannot reach the shop by a borrowed name."""
    try:
        local = ipaddress.ip_address(request.remote_addr or "").is_loopback
    except ValueError:
        return False
    name = request.host.rsplit(":", 1)[0] if not request.host.endswith("]") else request.host
    proxied = any(header in request.headers for header in ("X-Forwarded-For", "Forwarded", "X-Real-IP"))
    return local and name in _LOCAL_NAMES and not proxied
