"""Imports point one way only, on the service's side and on the phone's."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
PWA = ROOT / "pwa"
ALLOWED = {"logic": {"logic"}, "ports": {"logic"}, "ui": {"ui", "logic"}, ".": {".", "ui", "ports", "logic"}}


def folder(path: Path) -> str:
    return path.relative_to(PWA).parts[0] if path.parent != PWA else "."


def links_of(module: Path) -> list[Path]:
    text = module.read_text(encoding="utf-8")
    return [(module.parent / target).resolve() for target in re.findall(r"""from ['"](\.[^'"]+)['"]""", text)]


def test_the_service_imports_only_downwards() -> None:
    done = subprocess.run([Path(sys.executable).with_name("lint-imports"), "--no-cache"], cwd=ROOT,
                          capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stdout


def test_the_phone_imports_only_downwards() -> None:
    links = [(module, target) for module in PWA.rglob("*.js") for target in links_of(module)]
    assert links
    upward = [(str(m), str(t)) for m, t in links if folder(t) not in ALLOWED[folder(m)]]
    assert upward == []


def test_every_import_of_the_phone_leads_to_a_file() -> None:
    assert [str(t) for m in PWA.rglob("*.js") for t in links_of(m) if not t.is_file()] == []


def test_the_worker_caches_the_whole_shell() -> None:
    kept = {".js", ".css", ".html"}
    worker = (PWA / "sw.js").read_text(encoding="utf-8")
    listed = set(re.findall(r"'(?:\./)?([^']+\.(?:js|css|html))'", worker))
    shipped = {p.relative_to(PWA).as_posix() for p in PWA.rglob("*") if p.suffix in kept}
    assert listed == shipped - {"sw.js"}


def test_only_the_ports_fetch_and_only_the_ports_store() -> None:
    outside = [p for p in PWA.rglob("*.js") if folder(p) != "ports" and p.name != "sw.js"]
    reaching = re.compile(r"\b(fetch\(|indexedDB|XMLHttpRequest|localStorage)")
    assert [str(p) for p in outside if reaching.search(p.read_text(encoding="utf-8"))] == []


def test_one_module_alone_opens_the_geometry_kernel_and_one_the_solver() -> None:
    sources = {p: p.read_text(encoding="utf-8") for p in (ROOT / "service").rglob("*.py")}
    for name, doors in (("manifold3d", 1), ("highspy", 1)):
        door = re.compile(rf"""^\s*(import|from) {name}\b|import_module\(["']{name}""", re.MULTILINE)
        assert len([p for p, text in sources.items() if door.search(text)]) == doors, name


def test_the_service_starts_without_what_only_later_calls_need() -> None:
    code = ("import sys; from yardwright.http import create_app; from yardwright.wiring import load_shop; "
            "create_app(load_shop()); print(*sorted(sys.modules))")
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    late = {"numpy", "highspy", "manifold3d", "reportlab", "pint", "PIL", "apispec", "gunicorn",
            "yardwright.domain.checks", "yardwright.domain.piece", "yardwright.domain.cutting",
            "yardwright.quoting"}
    assert late & set(done.stdout.split()) == set()
