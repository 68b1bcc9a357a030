"""The nearest known word to a misspelt one."""

from collections.abc import Iterable

# Share of letters in common from which two words count as meant for each other; below it a suggestion
# misleads more often than it helps. Our own choice.
LEAST_LIKENESS = 0.7
LONGEST_WORD = 60  # likeness takes time that grows with the product of the lengths


def nearest(word: str, known: Iterable[str], *, likeness: float = LEAST_LIKENESS) -> str | None:
    """Return the known word that `word` most likely stands for, or None where no word is near.

    Capitals, hyphens, spaces and underscores make no difference. Of equally near words the first in the
    alphabet is returned, so the answer does not depend on the order of `known`.

    >>> nearest("webing", ["webbing", "sling"])
    'webbing'
    """
    if len(word) > LONGEST_WORD:
        return None
    from difflib import SequenceMatcher  # noqa: PLC0415 - only a misspelt word pays for it

    matcher = SequenceMatcher(autojunk=False)
    matcher.set_seq2(_folded(word))  # the matcher prepares its second word once
    best = None
    for candidate in sorted(set(known)):
        matcher.set_seq1(_folded(candidate))
        if matcher.real_quick_ratio() < likeness or matcher.quick_ratio() < likeness:
            continue
        share = matcher.ratio()
        if share > likeness or (share == likeness and best is None):
            best, likeness = candidate, share
    return best


def _folded(word: str) -> str:
    return word.casefold().replace("-", "_").replace(" ", "_")
