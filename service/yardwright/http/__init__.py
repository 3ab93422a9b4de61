"""The service over HTTP: ``create_app`` makes a Flask app for one shop, nothing global."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from flask import Flask

from ..domain.shop import Shop
from . import guard, problems
from .routes import api
from .static import ShellPath, files

__all__ = ["create_app"]


def create_app(shop: Shop, today: Callable[[], date] = date.today) -> Flask:
    """A WSGI app that answers for this shop; ``today`` dates a job that names no day."""
    app = Flask("yardwright", static_folder=None)
    app.extensions["yardwright.shop"] = shop
    app.extensions["yardwright.today"] = today
    app.url_map.converters["shell"] = ShellPath
    guard.install(app)
    problems.install(app)
    app.register_blueprint(api)
    app.register_blueprint(files)
    return app
