"""riglint: rules-based checks for slackline rig files.

What other programs may use, and nothing else:

- `riglint.audit(paths, book, on)` audits files and folders and returns an `Audit`,
- `riglint.load_rulebook()` returns the rules that came with riglint,
- `riglint.load_rig(path, on, root)` returns one rig computed (`Loads`), or sentences that say why it cannot be,
- `riglint.__version__`.

They are loaded when they are first asked for, so that importing riglint costs nothing.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from riglint.findings import Audit, Finding, audit, load_rig
    from riglint.rulebook import load_rulebook

__version__ = "0.1.0"
__all__ = ["Audit", "Finding", "__version__", "audit", "load_rig", "load_rulebook"]

_HOMES = {
    "Audit": "riglint.findings",
    "Finding": "riglint.findings",
    "audit": "riglint.findings",
    "load_rig": "riglint.findings",
    "load_rulebook": "riglint.rulebook",
}


def __getattr__(name: str) -> Any:
    if name not in _HOMES:
        raise AttributeError(f"module 'riglint' has no attribute {name!r}")
    from importlib import import_module  # noqa: PLC0415 - only whoever asks pays for it

    return getattr(import_module(_HOMES[name]), name)
