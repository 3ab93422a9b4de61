"""Fit cases as they stand in tests/vectors/fits.json, made into the domain's nouns."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any, cast

from yardwright.domain import formula, measure
from yardwright.domain.fit import Fit, fit
from yardwright.domain.shop import Fitting, KeepClear, Shop
from yardwright.domain.site import Access, Corner, Diagonal, Measured, Obstruction, Site, Wall
from yardwright.domain.template.model import Dimension, FitRule, Template

VECTORS = json.loads((Path(__file__).parent / "vectors" / "fits.json").read_text(encoding="utf-8"))


def nm(said: str | Mapping[str, float]) -> int:
    """A length as the interface takes it: words with a unit, or mm."""
    return measure.read(said, None).nm if isinstance(said, str) else measure.from_mm(said["mm"])


def _maybe(said: Any) -> int | None:
    return None if said is None else nm(said)


def shop(data: Mapping[str, Any] = VECTORS["shop"]) -> Shop:
    """A shop of which only the fitting and the room to keep clear are there."""
    f = data["fitting"]
    lengths = (nm(f[name]) for name in ("reading", "allowance", "airflow", "walkway"))
    fitting = Fitting(f["tape_class"], *lengths)
    rules = {k["kind"]: KeepClear(k["kind"], k["label"], nm(k["sides"]), nm(k["front"]), nm(k["above"]),
                                  nm(k["below"]), k["solid"], k["level"], k["advice"], "", "")
             for k in data["keep_clear"]}
    rest = dict.fromkeys(Shop.__dataclass_fields__, cast(Any, None))
    return Shop(**(rest | {"fitting": fitting, "keep_clear": rules}))


def template(data: Mapping[str, Any]) -> Template:
    """A template of which only the dimensions and the fit are there, its formulas read from their texts."""
    kinds = {d["name"]: "length" for d in data["dimensions"]} | dict.fromkeys(data.get("choices", ()), "text")
    values = []
    for value in data["fit"]["values"]:
        values.append((value["name"], formula.read(value["text"], kinds)))
        kinds[value["name"]] = values[-1][1].kind
    texts = dict(data["texts"])
    wing = formula.read(texts.pop("wing"), kinds, expect="text") if "wing" in texts else None
    envelope = {name: formula.read(text, kinds, expect="length") for name, text in texts.items()}
    dimensions = tuple(
        Dimension(d["name"], d["name"], {"in": nm(d["default"]), "mm": nm(d["default"])}, nm(d["min"]),
                  nm(d["max"]), {"in": nm(d["step"]), "mm": nm(d["step"])}) for d in data["dimensions"])
    rest = dict.fromkeys(Template.__dataclass_fields__, cast(Any, ()))
    return Template(**(rest | {"dimensions": dimensions, "fit": FitRule(
        tuple(values), envelope, tuple(data["fit"]["priority"]), wing)}))


def site(data: Mapping[str, Any]) -> Site:
    """A site as the interface takes it."""
    return Site(
        data.get("kind", "open"), tuple(_wall(w) for w in data.get("walls", ())),
        tuple(Corner(c["at"], c.get("angle"), tuple(
            Diagonal(nm(d["along"]), nm(d["out"]), nm(d["across"])) for d in c.get("diagonals", ())))
              for c in data.get("corners", ())),
        tuple(_measured(m) for m in data.get("depths", ())), _maybe(data.get("height_under")),
        access=tuple(Access(a["kind"], nm(a["width"]), _maybe(a.get("height")), _maybe(a.get("width_after")))
                     for a in data.get("access", ())),
        tape_class=data.get("tape_class", ""), walkway_nm=_maybe(data.get("walkway")))


def _measured(m: Mapping[str, Any]) -> Measured:
    return Measured(nm(m["value"]), *(_maybe(m.get(at)) for at in ("at_height", "at_depth", "at_along")))


def _wall(w: Mapping[str, Any]) -> Wall:
    return Wall(w.get("side", "back"), tuple(_measured(m) for m in w.get("readings", ())),
                nm(w.get("out_of_plumb", "0 mm")), nm(w.get("plumb_over", "0 mm")),
                tuple(Obstruction(o["kind"], nm(o["from"]), nm(o["to"]), nm(o["projection"]),
                                  _maybe(o.get("bottom")), _maybe(o.get("top")))
                      for o in w.get("obstructions", ())), w.get("leans", ""))


def answer(case: Mapping[str, Any]) -> Fit:
    """The fit of one case."""
    made = template(VECTORS["templates"][case["template"]])
    sizes = {d.name: d.default_nm["in"] for d in made.dimensions} | {
        name: nm(said) for name, said in case.get("dimensions", {}).items()}
    return fit(made, sizes, case.get("choices", {}), site(case["site"]), shop(), case.get("units", "in"))


def plain(found: Fit) -> dict[str, Any]:
    """What both sides of the shared vectors must give alike."""
    return {
        "fits": found.fits,
        "clearances": [{"side": c.side, "clearance": c.clearance_nm, "needed": c.needed_nm}
                       for c in found.clearances],
        "positions": [list(p) for p in found.positions],
        "largest": dict(found.largest_nm),
        "best": dict(found.best_nm) if found.best_nm is not None else None,
        "uncertainty": found.uncertainty_nm,
        "verdict": found.verdict,
        "findings": [[f.rule, str(f.level), f.title] for f in found.findings],
    }
