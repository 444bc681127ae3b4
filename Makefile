# Every target sets up first what it needs, a site or tests; where nothing changed that takes a moment. Python 3.11 or newer
# is all it asks of the machine.
# `make serve PYTHON=python3.12` takes another Python.
export PYTHON ?= python3
export NO_MKDOCS_2_WARNING = 1
BIN := .venv/bin

.PHONY: serve build test test-quick test-all check bench profile handouts components reference wheel setup setup-dev lock test-versions clean

serve: setup
	$(BIN)/mkdocs serve

build: setup
	$(BIN)/mkdocs build --strict

# The tests that CI runs, on two processors: while one of three workers waits, the others go on. `make test ARGS="-k timer"` picks some.
test: setup-dev
	.ci/browsers
	$(BIN)/pytest -n 3 --dist worksteal $(ARGS)

# The part without a browser and without Python in WebAssembly, with 20 examples of each property, for the day's work.
test-quick: setup-dev
	$(BIN)/pytest -n 3 --dist worksteal -m "not browser and not runtime" --hypothesis-profile=quick $(ARGS)

# Every cell of every matrix: all widths, papers, recipes and examples.
test-all: setup-dev
	.ci/browsers
	$(BIN)/pytest -n 3 --dist worksteal --full $(ARGS)

check: setup-dev
	$(BIN)/ruff check
	$(BIN)/ruff format --check
	$(BIN)/mypy --strict calc/crumbcoat_calc site_plugins/crumbcoat_site
	PATH="$(CURDIR)/$(BIN):$$PATH" npm --prefix tests/scripts run --silent check

bench: setup-dev
	$(BIN)/python -m bench

# Which functions of the interpreter are kept: after a new version of Pyodide, or if readers' requests trap. A quarter of an hour.
profile: setup-dev
	.ci/browsers
	$(BIN)/python -m tests.interpreter.profile
	$(BIN)/pytest --full tests/interpreter tests/site_plugins/calculators/test_trimmed.py

# PDF files of every handout, in build/handouts; needs Chromium. `make handouts PRINT="--paper Letter --large"`.
handouts: build
	$(BIN)/python -m crumbcoat_site.recipe_cards.handout.pdf $(PRINT)

# Every component by itself, light and dark, on one page to look at: build/components.html.
components: setup
	$(BIN)/python -m crumbcoat_site.recipe_cards.pages.examples build/components.html

# The JSON Schema of recipe files, and the pages of recipes/reference that are written from code.
reference: setup
	$(BIN)/python -m crumbcoat_site.recipe_cards.source.schema
	$(BIN)/python -m crumbcoat_site.recipe_cards.source.trial_schema
	$(BIN)/python -m crumbcoat_site.reference

# The package for sites, in build/wheel: with the runtime in it, so that a site needs no Node.js.
wheel: setup
	$(BIN)/python -m crumbcoat_site.calculators --for-wheel
	$(BIN)/python -m pip --disable-pip-version-check wheel --quiet --no-deps --no-build-isolation --wheel-dir build/wheel .
	rm -rf site_plugins/crumbcoat_site/calculators/prepared

setup:
	@.ci/setup

setup-dev:
	@.ci/setup dev

# Picks the newest versions again, and keeps the lists in step; needs uv and npm.
LOCK := uv pip compile --quiet --universal --python-version 3.11 --generate-hashes --only-binary :all: --emit-build-options \
	--no-header --no-annotate
lock:
	$(LOCK) --upgrade --group dev pyproject.toml -o requirements-dev.txt
	$(LOCK) --group build --constraint requirements-dev.txt pyproject.toml -o requirements.txt
	$(LOCK) --group node --constraint requirements-dev.txt -o requirements-node.txt
	$(LOCK) --upgrade --group uv -o requirements-uv.txt
	cd site_plugins/crumbcoat_site/calculators/runtime && npm install --package-lock-only --omit-lockfile-registry-resolved
	cd tests/scripts && npm install --package-lock-only --omit-lockfile-registry-resolved

# The part of the tests without a browser, with the lowest and the newest versions that are allowed; needs uv, takes long.
test-versions: setup-dev
	.ci/versions

clean:
	rm -rf .venv .cache site site_plugins/crumbcoat_site/calculators/runtime/node_modules \
		tests/scripts/node_modules */*.egg-info
