"""The audit one finding a line, for editors and for programs that host a repository.

`lines` is the form of the GNU Coding Standards (Formatting Error Messages: `file:line:column: message`, and
`program: message` for what belongs to no file). `github` are workflow commands as GitHub's documentation has them,
`gitlab` is the Code Quality report of GitLab's documentation. An open question stands there like a fault: it counts.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from pathlib import Path

from riglint.findings import Audit, FileResult, Finding
from riglint.read.problems import row_escaped, visible
from riglint.reports.audit.sarif_places import FINGERPRINT, fingerprints
from riglint.rulekit import Signal
from riglint.views.audit.files_seen import files_in_words
from riglint.views.audit.reader import for_a_reader
from riglint.views.audit.settings_words import settings_in_words
from riglint.views.audit.verdict import NO_WORD, verdict_of_all, verdicts
from riglint.views.audit.words import CAUTION_TEXT, closing, count

SEVERITIES = {
    Signal.DANGER: "blocker",
    Signal.WARNING: "critical",
    Signal.CAUTION: "major",
    Signal.NOTICE: "info",
}


def audit_lines(audit: Audit, here: Path) -> Iterator[str]:
    """Yield one line a finding; paths are told from a folder."""
    named = for_a_reader(audit)
    for path, one in _shown(named, here):
        yield _row(f"{path}:{one.at.line}:{one.at.column}: {_word(one)}: {_sentence(one)}")
    for sentence in _foot(audit, named):
        yield _row(f"riglint: {sentence}")


def _row(row: str) -> str:
    return f"{row_escaped(visible(row))}\n"


def audit_github(audit: Audit, stop_at: Signal) -> str:
    """Return a workflow command for each finding, an error where it stops the run; paths as the host has them."""
    named, rows = for_a_reader(audit), []
    for path, one in _shown(named):
        kind = "error" if one.signal >= stop_at else "warning" if one.signal >= Signal.CAUTION else "notice"
        title = f"{_word(one)} {one.rule}"
        place = f"file={_property(path)},line={one.at.line},col={one.at.column},title={_property(title)}"
        rows.append(f"::{kind} {place}::{_data(f'{one.message} {one.do}')}")
    rows += [f"::notice title=riglint::{_data(sentence)}" for sentence in _foot(audit, named)]
    return "".join(f"{visible(row)}\n" for row in rows)


def audit_gitlab(audit: Audit) -> str:
    """Return a Code Quality report; its form has no other place for the caution than beside each finding."""
    shown = list(_shown(for_a_reader(audit)))
    prints = fingerprints([one for _, one in shown])
    entries = [
        {
            "description": f"{_word(one)}: {one.message} {one.do}",
            "check_name": one.rule,
            "fingerprint": made[FINGERPRINT],
            "severity": SEVERITIES[one.signal],
            "location": {
                "path": path,
                "lines": {"begin": one.at.line},
            },
            "caution": CAUTION_TEXT,
        }
        for (path, one), made in zip(shown, prints, strict=True)
    ]
    return json.dumps(entries, indent=1, ensure_ascii=True) + "\n"


def _word(finding: Finding) -> str:
    """Return the signal word; a quiet review has none, since it may be about what can injure."""
    return NO_WORD if finding.is_quiet else finding.signal.name


def _sentence(finding: Finding) -> str:
    touched = f"Touches {', '.join(finding.rigs)}. " if len(finding.rigs) > 1 else ""
    return f"{finding.message} {finding.do} {touched}({finding.rule})"


def _shown(audit: Audit, here: Path | None = None) -> Iterator[tuple[str, Finding]]:
    """Yield what counts with the path of its file; checks that every rig gets are counted at the foot.

    Paths start where those of all reports do, for a host of the repository, or at a folder, for an editor.
    """
    for result in audit.files:
        for one in result.findings:
            if one.counts and not (one.is_quiet and one.is_check):
                yield (one.at.path if here is None else _from(here, result, one)), one


def _from(here: Path, result: FileResult, finding: Finding) -> str:
    """Return the path of a finding's file as seen from a folder; as the report has it where that is not known."""
    if result.file is None:
        return finding.at.path
    file = result.file
    if finding.at.path != result.path:  # a rig's finding that stands in another file of its library
        root = file.as_posix().removesuffix(result.path)
        file = Path(root) / finding.at.path
    try:
        return Path(os.path.relpath(file, here)).as_posix()
    except ValueError:  # another drive
        return file.as_posix()


def _foot(audit: Audit, named: Audit) -> list[str]:
    """Return what is said after the findings; `named` is the audit as a person reads it."""
    checks = sum(one.counts and one.is_quiet and one.is_check for one in audit.gists)
    accepted = audit.accepted_left_out + sum(not one.counts for one in audit.gists)
    verdict = verdict_of_all(named, verdicts(named))
    said = [f"{verdict.word}: {verdict.sentence}"]
    said += [f"{count(checks, 'check')} on site: see the card."] if checks else []
    said += [f"{count(accepted, 'accepted finding')} left out here."] if accepted else []
    said += [
        f"{one.path}: not judged: {count(gap.rules, 'rule')}, because {gap.because}."
        for one in audit.files
        for gap in one.not_judged
    ]
    return [*settings_in_words(audit.force), *said, CAUTION_TEXT, closing(audit), files_in_words(audit)]


def _data(text: str) -> str:
    """Return text as the data of a workflow command."""
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    """Return text as a property of a workflow command."""
    return _data(text).replace(":", "%3A").replace(",", "%2C")
