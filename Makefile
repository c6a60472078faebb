# make run    start bareshell on the demo build and print its address
# make test   everything a change must pass
# make lint   style, types and the floors of the house only
# make bench  how long the slow things take here; PSPLIB=DIR: how near the known optima we come
# make lock   write the lock files anew after a change to the dependencies
#
# A fresh machine needs Python 3.11 or newer with pip and venv, make, and nothing else.

SHELL := /bin/bash
.SHELLFLAGS := -euo pipefail -c
.DEFAULT_GOAL := help
MAKEFLAGS += --no-print-directory

VENV ?= .venv
BIN := $(VENV)/bin
PORT ?= 8642
DEMO ?= demo-build
PIP_INSTALL := $(BIN)/python -m pip install --quiet --disable-pip-version-check

.PHONY: help run test lint bench lock clean browser

help: ## say what there is to make
	@sed -n 's/^# make /make /p' Makefile

# The environment. The interpreter is asked for only when there is none yet; a broken one
# (the machine's Python went away) is laid anew.
$(BIN)/python:
	@scripts/lay-venv "$(VENV)"

# A stamp names the lock it was installed from, so a second run costs nothing.
$(VENV)/.base-stamp: requirements/base.txt pyproject.toml | $(BIN)/python
	@echo "Installing what bareshell needs (once; a minute or two) ..."
	@$(PIP_INSTALL) --require-hashes -r requirements/base.txt
	@$(PIP_INSTALL) --no-deps --no-build-isolation --editable .
	@touch $@

$(VENV)/.dev-stamp: requirements/dev.txt pyproject.toml | $(BIN)/python
	@echo "Installing what bareshell and its tests need (once; a minute or two) ..."
	@$(PIP_INSTALL) --require-hashes -r requirements/dev.txt
	@$(PIP_INSTALL) --no-deps --no-build-isolation --editable .
	@touch $@ $(VENV)/.base-stamp

run: $(VENV)/.base-stamp ## the demo build is made on first use, in ./demo-build
	@test -e "$(DEMO)/journal.db" || $(BIN)/bareshell demo "$(DEMO)"
	@exec $(BIN)/bareshell serve --build "$(DEMO)" --port $(PORT)

lint: $(VENV)/.dev-stamp
	@$(BIN)/ruff check .
	@$(BIN)/ruff format --check .
	@$(BIN)/mypy
	@$(BIN)/lint-imports --no-cache

# Without a browser the pages' own group is left out, and the run says so.
test: lint browser
	@if scripts/find-chromium >/dev/null; then \
	  $(BIN)/python -m pytest -n 2; \
	else \
	  echo "No Chromium on this machine: the browser group is left out of this run."; \
	  $(BIN)/python -m pytest -n 2 -m "not browser"; \
	fi

browser:
	@scripts/find-chromium >/dev/null || scripts/get-chromium

bench: $(VENV)/.dev-stamp
	@if [ -n "$(PSPLIB)" ]; then $(BIN)/python benchmarks/plan/projects.py "$(PSPLIB)"; \
	else $(BIN)/python benchmarks/run.py $(ONLY); fi

lock:
	@scripts/lock

clean: ## the environment and what tools left behind; never a build
	@rm -rf $(VENV) .mypy_cache .pytest_cache .ruff_cache .hypothesis .import_linter_cache
