# Every gate is one short command, the same here and in CI.
#   make demo    a printed pattern from an example brief        make check   format, lint, strict types
#   make test    the whole test suite                           make bench   figures measured against their goals

SHELL := /bin/bash
.SHELLFLAGS := -eu -o pipefail -c
PYTHON ?= python3
OUT ?= out
BRIEF ?= examples/heron-hipster.toml
BIN := .venv/bin
PIP := $(BIN)/python -m pip --disable-pip-version-check --quiet --no-input
INSTALL := $(PIP) install --require-hashes --only-binary :all:
READY := .venv/.ready
TEST_READY := .venv/.test-ready
CODE := src tests bench scripts

.PHONY: setup setup-test demo test check bench sweep format requirements clean

setup: $(READY)

$(READY): requirements/runtime.txt pyproject.toml scripts/make-venv
	@PYTHON="$(PYTHON)" scripts/make-venv .venv
	@echo "Installing what galloon needs into .venv (a minute or two the first time) ..."
	@$(INSTALL) -r requirements/runtime.txt
	@$(PIP) install --no-index --no-deps --no-build-isolation -e .
	@touch $@

setup-test: $(TEST_READY)
	@scripts/need-tools

$(TEST_READY): requirements/test.txt $(READY)
	@echo "Installing what the tests need ..."
	@$(INSTALL) -r requirements/test.txt
	@touch $@

demo: setup
	@status=0; $(BIN)/galloon make "$(BRIEF)" --out "$(OUT)" || status=$$?; \
	if [ $$status -eq 0 ] || [ $$status -eq 3 ]; then \
	  echo; echo "The pattern is in $$(cd "$(OUT)" && pwd): print pattern.pdf at 100 %, then read guide.pdf."; fi; \
	exit $$status

test: setup-test
	@$(BIN)/pytest -n 2 -m "not slow"

sweep: setup-test
	@$(BIN)/pytest -n 2 -m slow

check: $(TEST_READY)
	@$(BIN)/ruff format --check $(CODE)
	@$(BIN)/ruff check $(CODE)
	@$(BIN)/mypy

format: $(TEST_READY)
	@$(BIN)/ruff format $(CODE)
	@$(BIN)/ruff check --fix $(CODE)

bench: $(TEST_READY)
	@$(BIN)/python bench/run.py

# Pins again from requirements/*.in; keeps each version that still fits.
requirements: $(TEST_READY)
	@for set in runtime test; do $(BIN)/uv pip compile --quiet --no-header --python-version 3.11 --universal \
	  --generate-hashes --no-emit-index-url requirements/$$set.in -o requirements/$$set.txt; done

clean:
	@rm -rf .venv .mypy_cache .ruff_cache .pytest_cache .hypothesis .benchmarks build src/*.egg-info
