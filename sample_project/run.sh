#!/usr/bin/env bash
# Sets the machine up (see .ci/setup.sh), then runs the main job on the sample project through
# qgis_process. Results: sample_project/out/.
set -euo pipefail
source "$(dirname "${BASH_SOURCE[0]}")/../.ci/setup.sh"
set_up run
exec "$PYTHON" "$ROOT/sample_project/main_job.py" "$@"
