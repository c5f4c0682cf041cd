"""Writes every visible string of the plugin in a form that Qt's lupdate reads.

``python3 i18n/extract.py strings.cpp`` collects the calls ``translate("Context", "text")`` under
``plugin/`` by their syntax, so that a line break, a trailing comma or a joined literal changes
nothing, and stops with the place of every call whose arguments are not literal.
"""

import ast
import json
import sys
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent


def calls(source: str, name: str) -> Iterator[tuple[int, str | None, str | None]]:
    """Yield line, context and text of every call of ``translate``; None for what is no literal."""
    for node in ast.walk(ast.parse(source, name)):
        if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Name):
            continue  # a method of that name is str.translate
        if node.func.id != "translate":
            continue
        literals = [
            arg.value if isinstance(arg, ast.Constant) and isinstance(arg.value, str) else None
            for arg in node.args
        ]
        fits = len(literals) == 2 and not node.keywords
        yield node.lineno, *(literals if fits else (None, None))


def collect(folder: Path) -> tuple[list[tuple[str, str]], list[str]]:
    """Return the sorted (context, text) pairs of a tree and the places that cannot be read."""
    pairs, faults = set(), []
    for path in sorted(folder.rglob("*.py")):
        place = path.relative_to(folder.parent)
        for line, context, text in calls(path.read_text(encoding="utf-8"), str(place)):
            if context is None or text is None:
                faults.append(f"{place}:{line}: translate() wants two literal texts.")
            else:
                pairs.add((context, text))
    return sorted(pairs), faults


def literal(text: str) -> str:
    """Return a text as a literal of C++, which for these is that of JSON."""
    return json.dumps(text, ensure_ascii=False)


def main(target: str) -> int:
    pairs, faults = collect(ROOT / "plugin")
    if faults:
        print("\n".join(faults), file=sys.stderr)
        return 1
    # As they are: lupdate misreads an escape by number when another hex digit follows it.
    lines = [f"QCoreApplication::translate({literal(c)}, {literal(t)});\n" for c, t in pairs]
    Path(target).write_text("".join(lines), encoding="utf-8")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(*sys.argv[1:]))
