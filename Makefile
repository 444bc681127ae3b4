# Every target sets up first; where nothing changed that takes a moment. Python 3.11 or newer is all it needs.
# `make serve PYTHON=python3.12` takes another Python.
export PYTHON ?= python3
export NO_MKDOCS_2_WARNING = 1
BIN := .venv/bin

.PHONY: serve build test check bench handouts schema setup lock clean

serve: setup
	$(BIN)/mkdocs serve

build: setup
	$(BIN)/mkdocs build --strict

test: setup
	$(BIN)/pytest

check: setup
	$(BIN)/ruff check
	$(BIN)/ruff format --check
	$(BIN)/mypy --strict calc/crumbcoat_calc site_plugins/crumbcoat_site

bench: setup
	$(BIN)/python -m bench

# PDF files of every handout, in build/handouts; needs Chromium. `make handouts PRINT="--paper Letter --large"`.
handouts: build
	$(BIN)/python -m crumbcoat_site.recipe_cards.handout.pdf $(PRINT)

schema: setup
	$(BIN)/python -m crumbcoat_site.recipe_cards.source.schema

setup:
	@.ci/setup

# Chooses versions anew; needs uv and npm.
lock:
	uv pip compile --quiet --universal --python-version 3.11 --extra dev --generate-hashes --upgrade \
		--no-header --no-annotate pyproject.toml -o requirements.txt
	cd site_plugins/crumbcoat_site/calculators/runtime && npm install --package-lock-only --omit-lockfile-registry-resolved

clean:
	rm -rf .venv .cache site site_plugins/crumbcoat_site/calculators/runtime/node_modules */*.egg-info
