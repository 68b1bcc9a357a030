"""What became of every file and folder that an audit saw, in sentences."""

from __future__ import annotations

from collections import Counter

from riglint.findings import Audit
from riglint.views.audit.words import count, sealed

MOST_RULES = 5  # named that no remedy was searched for
MOST_FOLDERS = 5  # named for one reason


def files_in_words(audit: Audit) -> str:
    """Say what became of every file that was seen."""
    audited, left_out, refused = len(audit.audited), len(audit.left_out), len(audit.refused)
    words = f"{count(audit.seen, 'file')} seen: {audited} audited, {left_out} left out, {refused} refused."
    folders = len(audit.folders_left_out)
    words += f" {count(folders, 'folder')} not looked into." if folders else ""
    return f"{words} {unsearched_words(audit)}".rstrip()


def unsearched_words(audit: Audit) -> str:
    """Say under which rules no remedy was searched for, and how to ask for it; nothing where all was searched."""
    rules = audit.unsearched
    if not rules:
        return ""
    named = ", ".join(rules[:MOST_RULES]) + (
        f" and {len(rules) - MOST_RULES} more" if len(rules) > MOST_RULES else ""
    )
    return (
        f"No remedies were searched for below {audit.remedies_from.name} ({named}). "
        "Name a rig by itself, or add `--remedies-from NOTICE`, to have them all."
    )


def left_out_words(audit: Audit) -> list[str]:
    """Return a sentence for each thing that a report of this audit does not hold."""
    phrases = [f"Judged by {sealed(audit.seal)}."]
    reasons = Counter(one.because for one in audit.left_out)
    phrases += [f"{count(n, 'file')} left out, because {because}." for because, n in sorted(reasons.items())]
    phrases += _folders_in_words(audit)
    if audit.accepted_left_out:
        phrases.append(f"{count(audit.accepted_left_out, 'accepted finding')} left out here.")
    return phrases


def _folders_in_words(audit: Audit) -> list[str]:
    """Name the folders that were not looked into, by reason; of many the first."""
    by_reason: dict[str, list[str]] = {}
    for one in audit.folders_left_out:
        by_reason.setdefault(one.because, []).append(one.path)
    phrases = []
    for because, paths in sorted(by_reason.items()):
        more = f" and {len(paths) - MOST_FOLDERS} more" if len(paths) > MOST_FOLDERS else ""
        named = ", ".join(paths[:MOST_FOLDERS])
        phrases.append(f"{count(len(paths), 'folder')} not looked into, because {because}: {named}{more}.")
    return phrases
