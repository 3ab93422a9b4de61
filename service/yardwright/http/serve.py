"""The service as a process: gunicorn with sync workers, or one reloading process while developing."""

from __future__ import annotations

import gc
import os
import sys
from typing import Any

from flask import Flask

from ..domain.shop import Shop
from . import create_app

HOST, PORT = "127.0.0.1", 8000
LOOPBACK = ("127.0.0.1", "localhost", "::1")
SECONDS = 60                      # no request of ours takes longer; a worker that does is replaced


def serve(shop: Shop, host: str | None, port: int | None, workers: int, debug: bool) -> int:
    """Serve until stopped, on ``host`` and ``port``, else HOST and PORT, else loopback 8000."""
    host = host or os.environ.get("HOST") or HOST
    port = port if port is not None else int(os.environ.get("PORT") or PORT)
    app = create_app(shop)
    gc.collect()
    gc.freeze()                   # the shop stays: no request pays for a sweep through all of it
    shown = f"[{host}]" if ":" in host else host
    print(f"Yardwright at http://{shown}:{port}/ for {shop.identity.name}; stop with Ctrl-C", flush=True)
    for line in unsafe(host):
        print(line, file=sys.stderr, flush=True)
    if debug:
        app.run(host, port, debug=True)
    else:
        _gunicorn(app, f"{shown}:{port}", workers)
    return 0


def unsafe(host: str) -> list[str]:
    """What is still missing before this address is shown to others."""
    if host in LOOPBACK:
        return []
    said = {"YARDWRIGHT_SHOP_KEY": "quotes and papers are refused until it is set",
            "YARDWRIGHT_SEAL_KEY": "quotes are sealed with the demonstration key, which everybody knows"}
    return [f"{name} is not set: {what}." for name, what in said.items() if not os.environ.get(name)]


def _gunicorn(app: Flask, bind: str, workers: int) -> None:
    from gunicorn.app.base import BaseApplication

    class Service(BaseApplication):  # type: ignore[misc]
        def load_config(self) -> None:
            settings: dict[str, Any] = {
                "bind": bind, "workers": workers, "worker_class": "sync", "timeout": SECONDS,
                "control_socket_disable": True, "loglevel": "warning", "limit_request_line": 2000}
            for name, value in settings.items():
                self.cfg.set(name, value)

        def load(self) -> Flask:
            return app

    sys.argv[1:] = []             # gunicorn would read our own arguments as its
    Service().run()
