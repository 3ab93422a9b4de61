"""The app's files: layers, what the worker keeps, and nothing that the page's own rules would refuse."""

from __future__ import annotations

import gzip
import json
import re
from pathlib import Path

from PIL import Image

from pwa.shell import PWA, shell_files, stamped

ALLOWED = {"logic": {"logic"}, "ports": {"logic"}, "ui": {"ui", "logic"}, ".": {".", "ui", "ports", "logic"}}
MODULES = sorted(PWA.rglob("*.js"))
UNSAFE = r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|eval\(|\.style\b"
WORKER = PWA / "sw.js"


def folder(path: Path) -> str:
    return path.relative_to(PWA).parts[0] if path.parent != PWA else "."


def test_modules_import_only_downwards() -> None:
    links = [(module, (module.parent / target).resolve()) for module in MODULES
             for target in re.findall(r"from '(\.[^']+)'", module.read_text())]
    assert links
    assert [(str(m), str(t)) for m, t in links if folder(t) not in ALLOWED[folder(m)]] == []
    assert [str(t) for _, t in links if not t.is_file()] == []


def test_only_ports_touch_the_network_and_the_store() -> None:
    for word, port in ((r"\bfetch\(", "ports/api.js"), (r"\bindexedDB\b", "ports/storage.js")):
        using = {m.relative_to(PWA).as_posix() for m in MODULES if re.search(word, m.read_text())}
        assert using - {"sw.js"} == {port}


def test_the_worker_keeps_exactly_the_shell_under_its_own_version() -> None:
    assert WORKER.read_text() == stamped(WORKER.read_text()), "run: python tests/pwa/shell.py"
    assert len(shell_files()) > 20


def test_the_page_loads_every_module_at_once() -> None:
    wanted = {m.relative_to(PWA).as_posix() for m in MODULES} - {"sw.js", "main.js"}
    page = (PWA / "index.html").read_text()
    assert set(re.findall(r'rel="modulepreload" href="([^"]+)"', page)) == wanted


def test_nothing_inline_and_no_number_boxes() -> None:
    page = (PWA / "index.html").read_text()
    assert not re.search(r"\son[a-z]+=|\sstyle=|<style|javascript:", page)
    assert re.findall(r"<script[^>]*>", page) == ['<script type="module" src="main.js">']
    for module in MODULES:
        code = module.read_text()
        assert not re.search(UNSAFE, code), module
        assert "type: 'number'" not in code, module


def test_files_stay_calm_and_the_first_load_light() -> None:
    for path in [*MODULES, *PWA.rglob("*.css")]:
        assert len(path.read_text().splitlines()) <= 300, path
    packed = {name: len(gzip.compress((PWA / name).read_bytes())) for name in shell_files()}
    assert sum(size for name, size in packed.items() if name.endswith(".js")) <= 120 * 1024
    assert sum(packed.values()) <= 250 * 1024


def test_the_manifest_makes_it_installable() -> None:
    manifest = json.loads((PWA / "manifest.webmanifest").read_text())
    assert manifest["display"] == "standalone"
    assert manifest["start_url"] == "./"
    sizes = {(icon["sizes"], icon["purpose"]) for icon in manifest["icons"]}
    assert {("192x192", "any"), ("512x512", "any"), ("512x512", "maskable")} <= sizes
    for icon in manifest["icons"]:
        if icon["src"].endswith(".png"):
            with Image.open(PWA / icon["src"]) as image:
                assert f"{image.width}x{image.height}" == icon["sizes"]
