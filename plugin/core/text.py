"""Translation of the sentences that core hands to the user.

Core knows no Qt. The plugin puts Qt's translator in at start; until then (and in plain Python)
texts stay English. Calls are written ``translate("Core", "text")`` with literal arguments, so
that the translation tools find them, and are made when the text is needed, never at import.
"""

from collections.abc import Callable

Translator = Callable[[str, str], str]


def _english(context: str, text: str) -> str:  # noqa: ARG001
    return text


_translator: Translator = _english


def translate(context: str, text: str) -> str:
    """Return the text in the user's language."""
    return _translator(context, text)


def use_translator(translator: Translator | None) -> None:
    """Set the function that translates (``None`` = English again)."""
    global _translator
    _translator = translator or _english
