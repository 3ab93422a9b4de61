# Two commands are enough on a fresh machine: `make serve` and `make test`. Both do all set-up.
SHELL := /bin/bash
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
HOST ?= 127.0.0.1
PORT ?= 8000
JOBS ?= 2

.PHONY: help setup serve test lint hostile bench bench-cutting search-cutting openapi check-templates clean

help: ## list the targets
	@grep -hE '^[a-z-]+:.*##' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | expand -t 18

$(VENV)/run.stamp: requirements.txt pyproject.toml
	$(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -r requirements.txt
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps -e .
	@touch $@

$(VENV)/test.stamp: $(VENV)/run.stamp requirements-test.txt
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -r requirements-test.txt
	@touch $@

setup: $(VENV)/test.stamp ## virtual environment with everything pinned

serve: $(VENV)/run.stamp ## the service and the phone app, at HOST and PORT
	$(BIN)/python -m yardwright serve --host $(HOST) --port $(PORT)

lint: $(VENV)/test.stamp ## ruff, mypy strict on the domain, import directions
	$(BIN)/ruff check service tests
	$(BIN)/mypy
	$(BIN)/lint-imports

test: lint ## every test; installs Debian's chromium when root and none is found
	@tests/browser.sh
	$(BIN)/python -m pytest -n $(JOBS) --dist loadgroup

bench: $(VENV)/test.stamp ## the engine by stage, and the HTTP quote against a bare echo
	$(BIN)/python tests/bench/engine.py

bench-cutting: $(VENV)/test.stamp ## the cutting planner over seeded furniture groups
	$(BIN)/python tests/bench/cutting.py

search-cutting: $(VENV)/test.stamp ## 10 000 groups for a plan that cannot be cut or a false proof, 5 000 against an exact model
	CUTTING_SEARCH_GROUPS=10000 CUTTING_EXACT_GROUPS=5000 $(BIN)/python -m pytest -n $(JOBS) \
		tests/truth/test_cutting_search.py tests/truth/test_cutting_exact.py

openapi: $(VENV)/test.stamp ## write openapi/ anew from the schemas
	$(BIN)/python -m yardwright.http.describe > openapi/openapi.json

check-templates: $(VENV)/run.stamp ## every template at its corners and 200 points, in both shops
	for s in demo_shop demo_shop_metric; do for t in service/yardwright/data/templates/*.toml; do \
		$(BIN)/yardwright --shop $$s check $$t --points 200 || exit 1; done; done

hostile: $(VENV)/test.stamp ## hostile templates: escapes, crashes, worst CPU time
	$(BIN)/python tests/bench/hostile.py

clean: ## remove what the build made
	rm -rf $(VENV) .pytest_cache .mypy_cache .ruff_cache
