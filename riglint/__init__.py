"""riglint: rules-based checks for slackline rig files.

>>> import riglint
>>> found = riglint.audit("riglint/baselines/low.yaml")
>>> found.findings[0].to_dict()["rule"]
'anchor/tree_roots'

`examples/guides/python.md` names all that other programs may use and what stays as it is. Everything is loaded when it
is first asked for, so that importing riglint costs nothing.
"""

from __future__ import annotations

TYPE_CHECKING = False  # as typing has it; a remembered answer must not wait for that module
if TYPE_CHECKING:
    from typing import Any

    from riglint.api import UnusableError, audit, audit_paths, audit_text, load_policy, load_rig
    from riglint.findings import Audit, FileResult, Finding, Where
    from riglint.loads import Loads, PartLoad, State
    from riglint.policy import InForce
    from riglint.rulebook import Rulebook, RuleSetError, load_rulebook
    from riglint.rulekit import MissingInput, NotComputable, Signal

__version__ = "0.1.0"
__all__ = [
    "Audit",
    "FileResult",
    "Finding",
    "InForce",
    "Loads",
    "MissingInput",
    "NotComputable",
    "PartLoad",
    "RuleSetError",
    "Rulebook",
    "Signal",
    "State",
    "UnusableError",
    "Where",
    "__version__",
    "audit",
    "audit_paths",
    "audit_text",
    "load_policy",
    "load_rig",
    "load_rulebook",
]

_HOMES = {
    "riglint.api": ("UnusableError", "audit", "audit_paths", "audit_text", "load_policy", "load_rig"),
    "riglint.findings": ("Audit", "FileResult", "Finding", "Where"),
    "riglint.loads": ("Loads", "PartLoad", "State"),
    "riglint.policy": ("InForce",),
    "riglint.rulebook": ("RuleSetError", "Rulebook", "load_rulebook"),
    "riglint.rulekit": ("MissingInput", "NotComputable", "Signal"),
}


def __getattr__(name: str) -> Any:
    home = next((home for home, names in _HOMES.items() if name in names), None)
    if home is None:
        raise AttributeError(f"module 'riglint' has no attribute {name!r}")
    from importlib import import_module  # noqa: PLC0415 - only whoever asks pays for it

    return getattr(import_module(home), name)
