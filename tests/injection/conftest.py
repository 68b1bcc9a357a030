"""The empty library and the rulebook of one rule that the tests of the command line start from, too."""

from tests.cli.conftest import by_one_rule, library, one_rule

__all__ = ["by_one_rule", "library", "one_rule"]
