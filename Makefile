# One command per habit, the same by hand and on a build machine. Each brings what it needs.
.PHONY: up venv test lint format bench pictures schema lock

# A subset: make test ARGS='tests/unit -k lengths'
ARGS =
WORKERS = 2

# The whole of Kitproof on this machine, until Ctrl-C. Another port: make up PORT=8001. Another folder for all that it
# keeps: KITPROOF_HOME=/srv/kitproof make up.
PORT =
up: venv
	@.venv/bin/python manage.py up $(if $(PORT),--port $(PORT))

venv:
	@sh .ci/venv

test: lint
	@.venv/bin/pytest -n $(WORKERS) $(ARGS)

lint: venv
	@.venv/bin/ruff check --quiet .
	@.venv/bin/ruff format --quiet --check .
	@.venv/bin/djlint --quiet --lint frontend/templates
	@.venv/bin/mypy --no-error-summary
	@.venv/bin/lint-imports --no-cache >.venv/imports.log 2>&1 || { cat .venv/imports.log; exit 1; }

format: venv
	@.venv/bin/ruff check --quiet --fix-only .
	@.venv/bin/ruff format --quiet .

# The pictures of the README, from the product as it is.
pictures: venv
	@.venv/bin/python -m tests.pictures.make

bench: venv
	@.venv/bin/python -m tests.benchmarks

schema: venv
	@.venv/bin/python manage.py schema

# Keeps the versions that still satisfy pyproject.toml: make lock UPGRADE=--upgrade takes the newest.
UPGRADE =
lock: venv
	@.venv/bin/uv pip compile --quiet --universal --python-version 3.12 --generate-hashes --no-header $(UPGRADE) \
		--group dev pyproject.toml --output-file requirements.lock.txt
