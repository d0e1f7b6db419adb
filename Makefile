# Everything a developer or a continuous-integration machine needs. `make` alone lists the targets.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
SUDO := $(shell [ "$$(id -u)" = 0 ] || command -v sudo)
WORKERS ?= 2

# The theme announces a tool of its makers' in every build: not what a tutor asked for.
export NO_MKDOCS_2_WARNING := 1

.DEFAULT_GOAL := help
.PHONY: help course serve test check pythons mutants bench clean browser

help: ## list the targets
	@grep -hE '^[a-z]+:.*##' $(MAKEFILE_LIST) | sed -E 's/:[^#]*## /\t/' | expand -t 12

# Debian keeps venv apart from Python: fetch it where the standard way fails.
$(VENV)/ready: pyproject.toml constraints.txt
	$(PYTHON) -m venv $(VENV) || { $(SUDO) apt-get update -qq && $(SUDO) apt-get install -y -qq python3-venv && $(PYTHON) -m venv --clear $(VENV); }
	$(BIN)/python -m pip install -q --upgrade pip
	$(BIN)/python -m pip install -q -c constraints.txt -e ".[test]"
	@touch $@

# The browser without windows is twice as quick; where it can't be had, the whole one does.
browser:
	@command -v chromium >/dev/null && command -v chromium-headless-shell >/dev/null || { $(SUDO) apt-get update -qq && $(SUDO) apt-get install -y -qq --no-install-recommends chromium chromium-headless-shell fonts-dejavu-core; } || command -v chromium >/dev/null

# What checks the scripts of the site, in the versions of package-lock.json; Debian's Node.js where there is none.
node_modules/ready: package.json package-lock.json
	@command -v npm >/dev/null || { $(SUDO) apt-get update -qq && $(SUDO) apt-get install -y -qq --no-install-recommends nodejs npm; }
	npm ci --silent --no-audit --no-fund
	@touch $@

course: $(VENV)/ready ## publish the demonstration course into site/
	$(BIN)/mkdocs build --strict
	@echo "The course is in site/. Look at it with: $(BIN)/python -m http.server --directory site"

serve: $(VENV)/ready ## preview the demonstration course while writing
	$(BIN)/mkdocs serve

test: $(VENV)/ready node_modules/ready browser ## run every test
	$(BIN)/ruff check plugins tests
	$(BIN)/ruff format --check -q plugins tests
	$(BIN)/lint-imports
	$(BIN)/mypy
	node_modules/.bin/biome lint --error-on-warnings
	node_modules/.bin/tsc -p jsconfig.json
	$(BIN)/python -m pytest -n $(WORKERS) --dist loadgroup

pythons: $(VENV)/ready ## run the quick tests on every Python from 3.11 that is there
	$(BIN)/python -m tests.pythons $(VENV)/pythons

mutants: $(VENV)/ready ## change the code in small ways and count what the tests notice (an hour)
	$(BIN)/python -m pip install -q -c constraints.txt -e ".[test,mutants]"
	$(BIN)/python -m tests.mutants $(VENV)/mutants $(ROOM)

bench: $(VENV)/ready browser ## measure speed and size, and print the figures
	@for bench in tests/bench/bench_*.py; do echo "== $$bench"; $(BIN)/python $$bench || exit 1; done

clean: ## take away what building and testing left
	rm -rf site .wristwork build dist .pytest_cache .hypothesis .ruff_cache .mypy_cache
