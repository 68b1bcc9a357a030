"""What a library sets for every audit of it: its mark file, and the policy and the known findings that it names."""

from riglint.settings.leaving_out import LeavingOut
from riglint.settings.mark_file import Settings, settings_of

__all__ = ["LeavingOut", "Settings", "settings_of"]
