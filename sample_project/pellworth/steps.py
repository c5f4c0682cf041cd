"""Steps of a job as calls of ``qgis_process``, done again only when something has changed."""

import hashlib
import json
import os
import shutil
import subprocess
import sys
import time
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path


class StepError(Exception):
    """A step has failed; the message is what it said."""


@dataclass(frozen=True)
class Step:
    """One call: the id of an algorithm or model, its inputs, the files or folders it makes.

    With ``arguments`` it is a script of the sample that is run with them; the inputs then only
    say what it depends on.
    """

    name: str
    algorithm: str | Path
    inputs: dict
    outputs: dict
    arguments: list = field(default_factory=list)

    def files(self):
        """Return the input files that are there."""
        values = [v for given in self.inputs.values() for v in _each(given)]
        paths = [Path(str(value).split("|")[0]) for value in values]
        paths.append(Path(self.algorithm))
        return [path for path in paths if path.is_file()]


def _each(given):
    return given if isinstance(given, list) else [given]


@cache
def _program(root):
    """Return one digest of the plugin and of the sample's scripts."""
    digest = hashlib.sha256()
    for folder in (root / "plugin", root / "sample_project"):
        for pattern in ("*.py", "*.model3"):
            for path in sorted(folder.rglob(pattern)):
                digest.update(path.read_bytes())
    return digest.hexdigest()


def _fingerprint(step, root):
    """Return a digest of everything that the results depend on."""
    digest = hashlib.sha256(_program(root).encode())
    settings = {**step.inputs, **step.outputs, "algorithm": step.algorithm}
    digest.update(json.dumps(settings, sort_keys=True, default=str).encode())
    for path in step.files():
        digest.update(path.read_bytes())
    return digest.hexdigest()


def _run(command, text):
    # QGIS would leave a file with statistics beside every raster that it looks at.
    environment = os.environ | {"GDAL_PAM_ENABLED": "NO"}
    return subprocess.run(
        command, input=text, env=environment, capture_output=True, text=True, check=False
    )


def _call(step):
    """Run a step and return its results."""
    if step.arguments:
        done = _run([sys.executable, str(step.algorithm), *step.arguments], "")
        answer = {}
    else:
        inputs = {**step.inputs, **step.outputs}
        text = json.dumps({"inputs": inputs}, default=str)
        done = _run(["qgis_process", "run", str(step.algorithm), "-"], text)
        answer = json.loads(done.stdout)["results"] if done.returncode == 0 else {}
    if done.returncode != 0:
        lines = dict.fromkeys(line.strip() for line in done.stderr.splitlines() if line.strip())
        raise StepError(f"{step.name} ({step.algorithm}) has failed:\n" + "\n".join(lines))
    missing = [str(path) for path in step.outputs.values() if not Path(path).exists()]
    if missing:
        raise StepError(f"{step.name} ({step.algorithm}) did not write {', '.join(missing)}.")
    return answer


def _remove(path):
    """Remove a file, or a folder of results."""
    if path.is_dir():
        shutil.rmtree(path)
    path.unlink(missing_ok=True)


def run_steps(steps, records, root):
    """Run the steps that have to be, say so, and return the results of all by name.

    ``records`` is a folder for what was done and with which results.
    """
    records.mkdir(parents=True, exist_ok=True)
    results = {}
    for step in steps:
        record = records / f"{step.name}.json"
        wanted = _fingerprint(step, root)
        known = json.loads(record.read_text()) if record.is_file() else {}
        there = all(Path(path).exists() for path in step.outputs.values())
        if there and known.get("fingerprint") == wanted:
            results[step.name] = known["results"]
            print(f"   {step.name:<18} is there and up to date", flush=True)
            continue
        record.unlink(missing_ok=True)
        for path in step.outputs.values():
            _remove(Path(path))
        start = time.monotonic()
        results[step.name] = _call(step)
        record.write_text(json.dumps({"fingerprint": wanted, "results": results[step.name]}))
        print(f"   {step.name:<18} done in {time.monotonic() - start:.1f} s", flush=True)
    return results
