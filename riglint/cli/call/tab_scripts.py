"""Scripts with which shells complete a call; each has all words in it, so that no program runs at a key press.

The forms are those of the shells' own manuals: "Programmable Completion" of bash, `compsys` of zsh, `complete` of fish.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from shlex import quote

from riglint.records import dataclass


@dataclass(frozen=True, slots=True)
class Taken:
    """One option of a command."""

    names: tuple[str, ...]  # such as -q and --quiet
    words: tuple[str, ...]  # what may follow it; empty where anything may
    takes: bool  # whether a value follows it


@dataclass(frozen=True, slots=True)
class Offered:
    """One command with what may follow it."""

    name: str
    said: str
    options: tuple[Taken, ...]
    words: tuple[str, ...]  # that it takes beside options; empty where it takes files


def bash(commands: Sequence[Offered]) -> str:
    """Return the script for bash."""
    return (
        "_riglint() {\n"
        '    local word="${COMP_WORDS[COMP_CWORD]}" n=$((COMP_CWORD - 1)) words=\n'
        "    # --format=json comes in three words\n"
        '    if [ "$word" = "=" ]; then word=; elif [ "${COMP_WORDS[n]}" = "=" ]; then n=$((n - 1)); fi\n'
        '    case "${COMP_WORDS[1]} ${COMP_WORDS[n]} $word" in\n'
        f"{''.join(_cases(commands))}"
        "    esac\n"
        f'    [ "$COMP_CWORD" -eq 1 ] && words={quote(_names(commands))}\n'
        '    mapfile -t COMPREPLY < <(compgen -W "$words" -- "$word")\n'
        "}\n"
        "complete -o default -F _riglint riglint\n"
    )


def zsh(commands: Sequence[Offered]) -> str:
    """Return the script for zsh."""
    return (
        "_riglint() {\n"
        '    local word="$PREFIX" before="${words[CURRENT-1]}" offered=\n'
        '    if [[ "$word" == --*=* ]]; then before="${word%%=*}"; word="${word#*=}"; compset -P "*="; fi\n'
        '    case "${words[2]} $before $word" in\n'
        f"{''.join(_cases(commands)).replace(' words=', ' offered=')}"
        "    esac\n"
        f"    (( CURRENT == 2 )) && offered={quote(_names(commands))}\n"
        '    if [[ -n "$offered" ]]; then compadd -- ${=offered}; else _files; fi\n'
        "}\n"
        "(( $+functions[compdef] )) || { autoload -Uz compinit && compinit; }\n"
        "compdef _riglint riglint\n"
    )


def fish(commands: Sequence[Offered]) -> str:
    """Return the script for fish."""
    rows = []
    for one in commands:
        rows.append(f"complete -c riglint -f -n __fish_use_subcommand -a {one.name} -d {_in_fish(one.said)}")
        here = f"complete -c riglint -n '__fish_seen_subcommand_from {one.name}'"
        rows += [f"{here} -f -a {_in_fish(' '.join(one.words))}"] if one.words else []
        rows += [f"{here} {_fish_option(option)}" for option in one.options]
    return "".join(f"{row}\n" for row in rows)


SCRIPTS: dict[str, Callable[[Sequence[Offered]], str]] = {"bash": bash, "zsh": zsh, "fish": fish}


def _cases(commands: Sequence[Offered]) -> Iterator[str]:
    """Yield the branches that bash and zsh share: on the command, the word before and the word begun."""
    for one in commands:
        for option in one.options:
            if option.takes:
                names = "|".join(f"{quote(f'{one.name} {name} ')}*" for name in option.names)
                yield f"        {names}) words={quote(' '.join(option.words))} ;;\n"
        options = " ".join(name for option in one.options for name in option.names)
        yield f"        {quote(f'{one.name} ')}*' -'*) words={quote(options)} ;;\n"
        yield f"        {quote(f'{one.name} ')}*) words={quote(' '.join(one.words))} ;;\n"


def _names(commands: Sequence[Offered]) -> str:
    return " ".join(one.name for one in commands)


def _fish_option(option: Taken) -> str:
    names = (f"-l {name[2:]}" if name.startswith("--") else f"-s {name[1:]}" for name in option.names)
    words = f" -x -a {_in_fish(' '.join(option.words))}" if option.words else " -r" if option.takes else ""
    return f"{' '.join(names)}{words}"


def _in_fish(text: str) -> str:
    """Return text in single quotes, in which fish knows two escapes."""
    escaped = text.replace("\\", "\\\\").replace("'", "\\'")
    return f"'{escaped}'"
