"""Makes the installable zip, build/undercourse-<version>.zip: ``python3 .ci/package.py [folder]``.

The zip holds one folder ``undercourse/`` with everything of ``plugin/``, metadata.txt, LICENSE and
the compiled translations. The same tree gives the same bytes: sorted names, one date, one set of
permissions, no compression that depends on the zlib of the machine.
"""

import configparser
import subprocess
import sys
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
DATE = (1980, 1, 1, 0, 0, 0)
"""The first date that a zip can hold."""
LEFT_OUT = {"__pycache__", ".DS_Store"}


def version() -> str:
    metadata = configparser.ConfigParser()
    metadata.read(ROOT / "metadata.txt", encoding="utf-8")
    return metadata["general"]["version"]


def contents() -> dict[str, Path]:
    """Return the files of the zip by their name in it."""
    files = {"metadata.txt": ROOT / "metadata.txt", "LICENSE": ROOT / "LICENSE"}
    for path in (ROOT / "plugin").rglob("*"):
        if path.is_file() and not LEFT_OUT & set(path.parts) and path.suffix != ".pyc":
            files[path.relative_to(ROOT / "plugin").as_posix()] = path
    for source in (ROOT / "i18n").glob("*.ts"):
        files[f"i18n/{source.stem}.qm"] = source.with_suffix(".qm")
    return files


def package(folder: Path) -> Path:
    """Write the zip into a folder and return its path."""
    subprocess.run(["bash", str(ROOT / "i18n" / "build.sh"), "compile"], check=True)
    folder.mkdir(parents=True, exist_ok=True)
    target = folder / f"undercourse-{version()}.zip"
    unfinished = target.with_suffix(".part")
    with zipfile.ZipFile(unfinished, "w", zipfile.ZIP_STORED) as archive:
        for name, path in sorted(contents().items()):
            entry = zipfile.ZipInfo(f"undercourse/{name}", DATE)
            entry.external_attr = 0o100644 << 16
            entry.create_system = 3
            archive.writestr(entry, path.read_bytes())
    unfinished.replace(target)
    return target


if __name__ == "__main__":
    print(package(Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "build"))
