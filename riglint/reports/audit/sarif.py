"""The audit as SARIF 2.1.0 (OASIS standard), for programs that gather findings of many tools.

Section numbers are those of the standard. Nothing in it depends on the clock or the machine: two runs over the same
files on the same `--on` day give the same bytes.
"""

from __future__ import annotations

import json
from typing import Any

from riglint import __version__
from riglint.findings import Audit, FileResult
from riglint.read.problems import command_escaped
from riglint.reports.audit.json_report import settings_data
from riglint.reports.audit.sarif_places import ROOT, artifact
from riglint.reports.audit.sarif_results import results
from riglint.reports.audit.sarif_rules import Descriptors, overrides
from riglint.rulebook import Rulebook
from riglint.rulekit import Signal
from riglint.views.audit.files_seen import files_in_words
from riglint.views.audit.words import CAUTION_TEXT, NOT_WHOLE, closing, unfit

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
EXIT_STATUS = {
    0: "nothing at or above the stop word",
    1: "something at or above the stop word",
    2: "a file could not be read or judged, nothing of ours was found, or a policy leaves a family of rules empty",
    3: "a rule crashed, a rule set did not load whole, or no rule is in force",
}
NOTIFICATIONS = {
    "file/not-judged": "A file could not be read or judged.",
    "rule/crashed": "A rule crashed, so its question is not answered.",
    "rules/not-judged": "Rules had nothing to work on.",
    "rules/not-loaded": "A rule set did not load whole.",
    "rules/not-in-force": "Rules that should judge are not in force.",
}


def audit_sarif(audit: Audit, book: Rulebook, stop_at: Signal, *, hosts: bool = False) -> str:
    """Return the report of an audit as one SARIF log with one run.

    Args:
        audit: what was found.
        book: the rules that judged.
        stop_at: least signal word that gives exit status 1.
        hosts: as hosts of code show it: open questions fail, and quiet reviews are only counted.
    """
    descriptors = Descriptors(book, audit.findings)
    run = {
        "tool": {
            "driver": {
                "name": "riglint",
                "version": __version__,
                "semanticVersion": __version__,
                "shortDescription": {"text": "Rules-based checks for slackline rig files."},
                "rules": descriptors.rules,
                "notifications": [
                    {
                        "id": name,
                        "shortDescription": {"text": text},
                        "fullDescription": {"text": text},
                        "help": {
                            "text": "What is not judged is not checked. Read the message and judge again."
                        },
                    }
                    for name, text in NOTIFICATIONS.items()
                ],
            }
        },
        "invocations": [_invocation(audit, descriptors, stop_at)],
        "originalUriBaseIds": {
            ROOT: {
                "description": {"text": "The top of the repository, or the folder that the paths start at."}
            }
        },
        "artifacts": [
            {"location": artifact(result.path), "roles": ["analysisTarget"], "sourceLanguage": "yaml"}
            for result in audit.files
        ],
        "columnKind": "unicodeCodePoints",
        "results": results(audit, descriptors, hosts=hosts),
        "properties": _properties(audit, stop_at),
    }
    log = {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}
    return command_escaped(json.dumps(log, indent=1, ensure_ascii=True), r"\u0023") + "\n"


def _invocation(audit: Audit, descriptors: Descriptors, stop_at: Signal) -> dict[str, Any]:
    status = audit.status(stop_at)
    notifications = [one for result in audit.files for one in _notifications(result, descriptors)]
    for sentence in unfit(audit):
        name = "rules/not-loaded" if sentence == NOT_WHOLE else "rules/not-in-force"
        notifications.append(_notification(name, "error", sentence, None))
    return {
        "executionSuccessful": status in {0, 1},
        "exitCode": status,
        "exitCodeDescription": EXIT_STATUS[status],
        "ruleConfigurationOverrides": overrides(audit.force, descriptors),
        "toolExecutionNotifications": notifications,
    }


def _notifications(result: FileResult, descriptors: Descriptors) -> list[dict[str, Any]]:
    """Return what kept rules from being judged in one file (3.58)."""
    found = []
    for one in result.findings:
        if one.crashed:
            found.append(_notification("rule/crashed", "error", one.message, result.path))
            if one.rule in descriptors.index:
                found[-1]["associatedRule"] = {"id": one.rule, "index": descriptors.index[one.rule]}
    if not result.judged:
        found.append(_notification("file/not-judged", "error", f"{result.path} was not judged.", result.path))
    for gap in result.not_judged:
        message = f"{gap.rules} rules not judged, because {gap.because}."
        found.append(_notification("rules/not-judged", "warning", message, result.path))
    return found


def _notification(name: str, level: str, message: str, path: str | None) -> dict[str, Any]:
    notification = {
        "descriptor": {"id": name, "index": list(NOTIFICATIONS).index(name)},
        "level": level,
        "message": {"text": message},
    }
    if path is None:
        return notification
    return notification | {"locations": [{"physicalLocation": {"artifactLocation": artifact(path)}}]}


def _properties(audit: Audit, stop_at: Signal) -> dict[str, Any]:
    """Return what the standard has no place for."""
    force = audit.force
    return {
        "riglint/on": audit.on.isoformat(),
        "riglint/rulebook": audit.seal,
        "riglint/stopAt": stop_at.name,
        "riglint/closing": closing(audit),
        "riglint/files": files_in_words(audit),
        "riglint/caution": CAUTION_TEXT,
        "riglint/houseRules": list(audit.house),
        "riglint/leftOut": len(audit.left_out),
        "riglint/foldersLeftOut": [
            {"path": one.path, "because": one.because} for one in audit.folders_left_out
        ],
        "riglint/acceptedLeftOut": audit.accepted_left_out,
        "riglint/checksOnSite": sum(one.counts and one.is_quiet for one in audit.findings),
        "riglint/settings": settings_data(force),
        "riglint/policy": {
            "title": force.title,
            "path": force.path,
            "sha256": force.sha256,
            "changed": [
                {
                    "name": one.name,
                    "from": one.old,
                    "to": one.new,
                    "because": one.because,
                    "loosens": one.loosens,
                }
                for one in force.changes
            ],
        },
    }
