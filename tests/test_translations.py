"""Every visible string can be translated, and French is complete."""

import importlib.util
import re
import shutil
import subprocess
import xml.etree.ElementTree as ET
from collections import Counter
from pathlib import Path

import pytest

from tests.commands import ROOT

FRENCH = ROOT / "i18n" / "undercourse_fr.ts"


@pytest.fixture(scope="module")
def extract():
    """Return the script that finds the strings, as a module."""
    spec = importlib.util.spec_from_file_location("extract_script", ROOT / "i18n" / "extract.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def build(command: str, root: Path = ROOT) -> subprocess.CompletedProcess[str]:
    script = str(root / "i18n" / "build.sh")
    return subprocess.run(["bash", script, command], capture_output=True, text=True, check=False)


def messages(path: Path) -> list[tuple[str, str, ET.Element]]:
    """Return context, source text and translation element of every message."""
    return [
        (context.findtext("name"), message.findtext("source"), message.find("translation"))
        for context in ET.parse(path).getroot().iter("context")
        for message in context.iter("message")
    ]


def test_every_call_has_literal_texts(extract):
    pairs, faults = extract.collect(ROOT / "plugin")
    assert faults == []
    assert len(pairs) > 50


@pytest.mark.parametrize(
    "call",
    [
        'translate("Core", f"Zone {zone}")',
        'translate("Core", text)',
        "translate(context, 'text')",
        'translate("Core", "Zone %d" % zone)',
        'translate("Core", text="text")',
        'translate("Core")',
    ],
)
def test_a_call_without_literal_texts_is_found(extract, tmp_path, call):
    (tmp_path / "plugin").mkdir()
    (tmp_path / "plugin" / "module.py").write_text(f"\n{call}\n")
    pairs, faults = extract.collect(tmp_path / "plugin")
    assert pairs == []
    assert faults == ["plugin/module.py:2: translate() wants two literal texts."]


@pytest.mark.parametrize(
    "call",
    [
        'translate("Core", "One text.")',
        'translate(\n    "Core",\n    "One text.",\n)',
        'translate("Core", "One "\n "text.").format(a=1)',
        'str(translate("Core", "One text."))',
    ],
)
def test_the_layout_of_a_call_changes_nothing(extract, tmp_path, call):
    (tmp_path / "module.py").write_text(call)
    assert extract.collect(tmp_path) == ([("Core", "One text.")], [])


def test_the_method_of_str_is_left_alone(extract, tmp_path):
    (tmp_path / "module.py").write_text("text.translate(table)")
    assert extract.collect(tmp_path) == ([], [])


def test_french_is_up_to_date_and_complete():
    run = build("check")
    assert run.returncode == 0, run.stderr


def test_the_sources_of_the_translations_are_the_strings_of_the_code(extract):
    pairs, _ = extract.collect(ROOT / "plugin")
    assert sorted((context, source) for context, source, _ in messages(FRENCH)) == pairs


def test_check_tells_a_missing_string_and_an_unfinished_one(tmp_path):
    """The check itself, on a small tree, from a string without entry to one without French."""
    shutil.copytree(ROOT / "i18n", tmp_path / "i18n", ignore=shutil.ignore_patterns("*.qm"))
    (tmp_path / "plugin").mkdir()
    ts = tmp_path / "i18n" / FRENCH.name
    ts.write_text('<!DOCTYPE TS>\n<TS version="2.1" language="fr" sourcelanguage="en"></TS>\n')
    text = "A string that nobody has translated."
    (tmp_path / "plugin" / "module.py").write_text(f'translate(\n    "Core",\n    "{text}",\n)')

    missing = build("check", tmp_path)
    assert missing.returncode == 1
    assert "not up to date" in missing.stderr
    assert text in missing.stderr

    assert build("update", tmp_path).returncode == 0
    unfinished = build("check", tmp_path)
    assert unfinished.returncode == 1
    assert "without a finished translation" in unfinished.stderr
    assert text in unfinished.stderr

    done = ts.read_text().replace(' type="unfinished">', ">Un texte.")
    ts.write_text(done)
    assert build("check", tmp_path).returncode == 0
    assert ts.read_text() == done


def test_translations_keep_the_placeholders():
    def placeholders(text):
        return Counter(re.findall(r"\{[^{}]*\}", text))

    wrong = [
        source
        for _, source, translation in messages(FRENCH)
        if placeholders(source) != placeholders(translation.text or "")
    ]
    assert wrong == []


def test_qgis_speaks_french_with_the_compiled_file(qgis_app):
    from qgis.PyQt.QtCore import QCoreApplication, QTranslator

    assert build("compile").returncode == 0
    translator = QTranslator()
    assert translator.load(str(FRENCH.with_suffix(".qm")))
    QCoreApplication.installTranslator(translator)
    try:
        wrong = [
            source
            for context, source, translation in messages(FRENCH)
            if QCoreApplication.translate(context, source) != translation.text
        ]
    finally:
        QCoreApplication.removeTranslator(translator)
    assert wrong == []
