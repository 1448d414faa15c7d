# A fresh clone needs Python 3.11 or newer, make and a package index, nothing else:
#   make demo   plans the demo piece, writes its packet and opens the page
#   make test   runs every check and every test
# All paths are relative, so the clone may stand in a folder with spaces in its name.

ifndef PYTHON
PYTHON := $(shell for name in python3.11 python3 python3.12 python3.13 python3.14; do \
	"$$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1 && echo "$$name" && break; done)
endif
BIN := .venv/bin
WORKERS ?= 2
ARGS ?=
# What the tests start reads the modules compiled, whatever the shell says; a machine that is new compiles them once.
unexport PYTHONDONTWRITEBYTECODE
LOCK := pip compile --quiet pyproject.toml --generate-hashes --no-emit-index-url --no-header --no-annotate -p 3.11

.DEFAULT_GOAL := help
.PHONY: help demo test check lint format bench bench-timber lock run dev browser clean

help: ## what can be made
	@grep -E '^[a-z-]+:.*## ' Makefile | sed -E 's/:.*## /\t/' | expand -t 16

demo: run ## plan the demo piece, write its packet, open the page
	@$(BIN)/scantling demo $(ARGS)

test: dev browser ## lint, types, layers and all tests
	@$(BIN)/python -m pytest -n $(WORKERS) --dist worksteal $(ARGS)

check: test ## the same as test

lint: dev ## only lint, types and layers, in seconds
	@$(BIN)/ruff check .
	@$(BIN)/ruff format --check --quiet .
	@$(BIN)/mypy
	@$(BIN)/lint-imports --no-logo

format: dev ## set the code as the formatter wants it
	@$(BIN)/ruff check --fix-only --quiet .
	@$(BIN)/ruff format .

bench: run ## time the commands; append to benchmarks/results.jsonl
	@$(BIN)/python benchmarks/run.py $(ARGS)

bench-timber: dev ## lay out published instances and racks, beside general packers, and print the table
	@$(BIN)/python benchmarks/timber/run.py $(ARGS)

lock: dev ## bring both locks in line with pyproject.toml (ARGS=--upgrade: newest versions)
	@$(BIN)/python -m uv --version >/dev/null 2>&1 || $(BIN)/python -m pip install --quiet uv
	@$(BIN)/python -m uv $(LOCK) $(ARGS) --group dev -o requirements-dev.lock
	@rm -f requirements.lock
	@$(BIN)/python -m uv $(LOCK) --group build -c requirements-dev.lock -o requirements.lock
	@! grep -n '://' requirements.lock requirements-dev.lock

run: python
	@"$(PYTHON)" tools/environment.py run

dev: python
	@"$(PYTHON)" tools/environment.py dev

browser: dev
	@$(BIN)/python tools/browser.py

.PHONY: python
python:
	@test -n "$(PYTHON)" || { echo "Scantling needs Python 3.11 or newer, and there is none on the PATH." >&2; exit 2; }

clean: ## remove the environment and everything made
	rm -rf .venv build dist .pytest_cache .mypy_cache .ruff_cache .hypothesis .import_linter_cache
	find src tests tools benchmarks -name __pycache__ -type d -prune -exec rm -rf {} +
