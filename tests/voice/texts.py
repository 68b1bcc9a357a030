"""Every text that a person reads, with where it comes from; nothing here judges it."""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from riglint.cli import _parser
from riglint.hazards import HAZARDS
from riglint.reports.rules.default_policy import default_policy
from riglint.rulebook import load_rulebook

ROOT = Path(__file__).parents[2]
PAGES = ("README.md", "CHANGELOG.md", "DEVELOPERS.md", "examples/**/*.md", "riglint/*.md", "rules/README.md")
SAID = re.compile(r"^  (?:[A-Z]+ \w+ at [^:]+|do): (.*)$", re.MULTILINE)
# How a number of the sheet came about: formulas, figures and their sources are no sentences.
TRAIL = re.compile(
    r" = |(?:^|; |\()\S{1,9} -?\d|\((?:read in|common practice|from memory)|rated load ×|^with "
)
LABELLED = re.compile(r"^ {0,6}(?:\[ \] |[A-Za-z:]\S*(?: \S+)? {2,})?(\S.*)$")

Text = tuple[str, str]  # where it stands, what it says


def everything() -> Iterator[Text]:
    """Yield every text, by what people meet first."""
    for source in (rules, sayings, reports, messages, help_texts, hazards, schemas, comments, pages):
        yield from source()


def rules() -> Iterator[Text]:
    """Yield the titles, accidents and reasons of all rules."""
    for rule_id, rule in load_rulebook().rules.items():
        yield f"rule {rule_id}", rule.title
        yield f"rule {rule_id}", rule.why
        for limit in rule.limits:
            yield f"rule {rule_id}", limit.because


def sayings() -> Iterator[Text]:
    """Yield what the rules say of all their examples, and what to do, as a golden test holds it."""
    for file in sorted((ROOT / "tests/golden/rules").glob("*.txt")):
        for said in SAID.findall(file.read_text(encoding="utf-8")):
            yield f"saying {file.stem}", said


def reports() -> Iterator[Text]:
    """Yield the lines of whole reports, as golden tests hold them."""
    for folder in ("cards", "sheets"):
        for file in sorted((ROOT / "tests/golden" / folder).glob("*.txt")):
            for text in _printed(file.read_text(encoding="utf-8")):
                if not TRAIL.search(text):
                    yield f"report {folder}/{file.name}", text
    for file in sorted((ROOT / "tests/golden").glob("*/*.md")):
        for text in _markdown(file.read_text(encoding="utf-8")):
            if not TRAIL.search(text):
                yield f"report {file.name}", text


def messages() -> Iterator[Text]:
    """Yield what is said over files that are wrong."""
    for file in sorted((ROOT / "tests/broken").glob("*.txt")):
        for text in _printed(file.read_text(encoding="utf-8")):
            yield f"message {file.name}", text


def help_texts() -> Iterator[Text]:
    """Yield the help of every command and option."""
    parser: Any = _parser()
    for name, command in (("riglint", parser), *_commands(parser)):
        yield f"help {name}", command.description or ""
        yield f"help {name}", command.epilog or ""
        for action in command._actions:  # argparse has no other way
            if isinstance(action.help, str):
                yield f"help {name}", action.help.replace("%%", "%")


def _commands(parser: Any) -> Iterator[tuple[str, Any]]:
    for action in parser._actions:
        if isinstance(action.choices, dict):
            yield from action.choices.items()


def hazards() -> Iterator[Text]:
    """Yield what can go wrong, and what only a person on site can see."""
    for hazard in HAZARDS.values():
        yield f"hazard {hazard.id}", hazard.what
        yield f"hazard {hazard.id}", hazard.eyes


def schemas() -> Iterator[Text]:
    """Yield what an editor says of keys and words."""
    for file in sorted((ROOT / "schemas").glob("*.json")):
        for text in _described(json.loads(file.read_text(encoding="utf-8"))):
            yield f"schema {file.name}", text


def _described(node: Any) -> Iterator[str]:
    if isinstance(node, dict):
        for key, value in node.items():
            if key in {"description", "errorMessage"} and isinstance(value, str):
                yield value
            else:
                yield from _described(value)
    elif isinstance(node, list):
        for value in node:
            yield from _described(value)


def comments() -> Iterator[Text]:
    """Yield the comments of the default policy and of the drafts."""
    texts = {
        file.name: file.read_text(encoding="utf-8")
        for file in sorted((ROOT / "riglint/drafts").glob("*.yaml"))
    }
    for name, text in {"default policy": default_policy(load_rulebook()), **texts}.items():
        for line in re.findall(r"(?:^|\s)# (.*)$", text, re.MULTILINE):
            yield f"comment {name}", line


def pages() -> Iterator[Text]:
    """Yield the prose of the pages that people read."""
    for pattern in PAGES:
        for file in sorted(ROOT.glob(pattern)):
            for text in _markdown(file.read_text(encoding="utf-8")):
                yield f"page {file.relative_to(ROOT).as_posix()}", text


def _markdown(text: str) -> Iterator[str]:
    """Yield paragraphs, items and cells; code blocks are no prose."""
    text = re.sub(r"^ *```.*?^ *```", "", text, flags=re.MULTILINE | re.DOTALL)
    text = re.sub(r"<!--.*?-->", "", text, flags=re.DOTALL)
    for block in re.split(r"\n\s*\n|\n(?= *(?:[-*|#>]|\d+\.) ?)", text):
        cells = block.split("|") if block.lstrip().startswith("|") else [block]
        for cell in cells:
            yield re.sub(r"^[\s#>*-]*(?:\d+\. )?(?:\[ \] )?", "", " ".join(cell.split()))


def _printed(text: str) -> Iterator[str]:
    """Yield the texts of a report for terminals: a line, with those below it that are set in further."""
    said = ""
    for line in text.splitlines():
        label = LABELLED.match(line)
        if said and (not line.strip() or label):
            yield said
            said = ""
        said = " ".join(filter(None, (said, label[1] if label else line.strip())))
    yield said
