#!/usr/bin/env bash
# Sets the machine up (see .ci/setup.sh), then runs every check and every test.
# Arguments go to pytest: `bash tests/run.sh tests/core -k units`.
set -euo pipefail
source "$(dirname "${BASH_SOURCE[0]}")/../.ci/setup.sh"
set_up tests
cd "$ROOT"

check() { # title, command
    say "$1"
    shift
    "$@" || {
        printf '== this check failed: %s\n' "$*" >&2
        exit 1
    }
}

check "lint" "$PYTHON" -m ruff check .
check "format" "$PYTHON" -m ruff format --check .
# QGS202 knows methods by their bare names and takes layer.setColor() for a raster block's.
check "QGIS rules" "$PYTHON" -m flake8 --select QGS --extend-ignore QGS202 plugin
check "types of core" env MYPYPATH="$VENV/types" "$PYTHON" -m mypy
check "imports point one way" "$VENV/bin/lint-imports" --no-cache
check "translations" bash i18n/build.sh check
say "tests"
exec "$PYTHON" -m pytest -p no:cacheprovider "$@"
