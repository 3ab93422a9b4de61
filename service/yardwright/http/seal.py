"""The keyed seal over a quote's customer content: a changed figure is noticed, a paper can be reissued.

HMAC-SHA256 (RFC 2104, FIPS 180-4) over canonical JSON: members sorted, no spaces, 12.0 written as 12 so
that a quote that went through a phone's JSON comes back the same (after RFC 8785).
"""

from __future__ import annotations

import base64
import hashlib
import hmac
import json
import os
from typing import Any

from ..domain.errors import BrokenSeal, Fault
from .schemas.quote import customer_part

# Stands in while YARDWRIGHT_SEAL_KEY is not set: it shows a slip, it does not stop a forger (see README).
DEMONSTRATION_KEY = "yardwright demonstration seal, not a secret"


def seal(answer: dict[str, Any]) -> str:
    """The seal of a quote, whichever scope it was answered in."""
    digest = hmac.new(_key(), canonical(customer_part(answer)), hashlib.sha256).digest()
    return "v1." + base64.urlsafe_b64encode(digest).rstrip(b"=").decode()


def check(answer: dict[str, Any]) -> dict[str, Any]:
    """The customer's part of a sealed quote with its seal; BrokenSeal when anything in it was changed."""
    given = str(answer.get("seal", ""))
    if not hmac.compare_digest(given.encode(), seal(answer).encode()):
        raise BrokenSeal(Fault("/quote/seal", "the quote is not as this shop sealed it; send it exactly as "
                                              "it was answered, or ask for a new one"))
    return customer_part(answer) | {"seal": given}


def canonical(value: Any) -> bytes:
    """One byte string for one content."""
    return json.dumps(_plain(value), sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()


def _plain(value: Any) -> Any:
    if isinstance(value, float) and value.is_integer():
        return int(value)
    if isinstance(value, dict):
        return {name: _plain(inner) for name, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(inner) for inner in value]
    return value


def _key() -> bytes:
    return os.environ.get("YARDWRIGHT_SEAL_KEY", DEMONSTRATION_KEY).encode()
