"""Sentences that are too long, and turns of phrase that we do not write."""

import re
from collections.abc import Iterator
from pathlib import Path

import yaml

from tests.voice.texts import Text

HERE = Path(__file__).parent
MOST_WORDS = 25
PHRASES = [
    (re.compile(one["avoid"], re.IGNORECASE), str(one["say"]))
    for one in yaml.safe_load((HERE / "phrases.yaml").read_text(encoding="utf-8"))
]
# Code, ids of rules, names in quotes, and lists of the words of a format: one word each, not ours to phrase.
CODE = re.compile(r"`[^`]*`|\b[a-z]\w*/[a-z]\w*\b|'[^' ]+'|\b[\w]+(?:, [\w]+){3,}\b")
LINK = re.compile(r"\[([^\]]*)\]\([^)]*\)")
END = re.compile(r"(?<=[.?!:])[)*_]*\s+(?=\S)")


def faults_of(text: str) -> Iterator[tuple[str, str]]:
    """Yield each sentence of a text that is not in our voice, with the reason."""
    for sentence in END.split(CODE.sub("code", LINK.sub(r"\1", text))):
        words = [word for word in sentence.split() if re.search(r"\w", word)]
        if len(words) > MOST_WORDS:
            yield sentence, f"{len(words)} words, at most {MOST_WORDS}"
        for phrase, say in PHRASES:
            if found := phrase.search(sentence):
                yield sentence, f"'{found[0]}': write {say}"


def offending(texts: Iterator[Text]) -> dict[str, str]:
    """Return the sentences that are not in our voice: where each stands and why."""
    found: dict[str, str] = {}
    for where, text in texts:
        for sentence, why in faults_of(text):
            found.setdefault(sentence, f"{where}: {why}")
    return found


def waiting() -> list[str]:
    """Return the sentences that are still to be rewritten."""
    return (HERE / "waiting.txt").read_text(encoding="utf-8").splitlines()
