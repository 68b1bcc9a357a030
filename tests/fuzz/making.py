"""Makes inputs: files, a call, messages. An input is plain JSON, bytes as Latin-1 text, so that it can be kept."""

from __future__ import annotations

from collections.abc import Callable
from random import Random
from typing import Any

import yaml

from riglint.testing import BASELINES
from tests.cli.calling import DAY, SOUND

Input = dict[str, Any]
RIGS = tuple(sorted(file.read_text("utf-8") for file in BASELINES.glob("*.yaml")))
SPOT = "riglint: spot/1\nspan: 20 m\nanchors: {}\n"
JSON = ("--format", "json")
BITS = (
    b"\x00", b"\xff", b"\xef\xbb\xbf", b"\xe2\x80\xae", b"\xe2\x80\xa8", b"\xe3\x85\xa4", b"\t", b"\r",
    b"\n", b": ", b"- ",
    b"[", b"{", b"}", b"&a ", b"*a", b"!!str ", b"|\n", b"#", b"'", b'"', b"---\n", b"<<: ", b"::error::",
    b"\x1b[31m",
    b"9" * 25, b"-", b" \xc2\xb1 9 kN", b"1e99",
)  # fmt: skip
LEAVES = (
    "", "0", "-1", "7", "0 m", "1e9 m", "-5 kN", "82 m \u00b1 90 m", "figure_8", "true", "~", "2026-02-30",
    "9999-12-31", "\u202e",
    "::warning::", "x" * 300, "0.0000001 kN", "999999 kN", "360 deg", "101 %", "nan", ".inf", "\u3164",
    "../../x", "low.yaml",
)  # fmt: skip
QUANTITIES = (
    "7.9 s", "7.9 s \u00b1 0.1 s", "0 s", "-1 s", "0.001 s", "1.3 kN", "1.3 kN \u00b1 2 kN", "900 kN", "1 N",
    "0.8 m", "0.8 m \u00b1 0.9 m",
    "300 m", "75 kg", "75 kg \u00b1 1 kg", "0 kg", "58 g/m", "58", "", "x", "1e400 m", "\u0668 m", "12 ft",
    "-0 m", "1\u00a0kN",
)  # fmt: skip
READINGS = ("--time", "--over", "--mass-per-metre", "--sag", "--under", "--at", "--pull", "--returns")
NAMES = (
    "a.yaml", "-.yaml", "--policy=p.yaml", "--output=x.yaml", "a b.yaml", "a\nb.yaml", "\u202ea.yaml",
    "::error::.yaml", "a\tb.yml",
    "\u3164.yaml", "sub/--.yaml", "##[group]a.yaml", "\x1b[31m.yaml", "a'b\".yaml", "<b>.yaml", "%2e.yaml",
    "C.YAML", "rigs/.hid.yaml",
    "x" * 200 + ".yaml", "a\u0301.yaml", "&amp;.yaml", "]]>.yaml", "|a|.yaml",
)  # fmt: skip


def bytes_(random: Random) -> Input:
    """Bytes of a rig, changed, left out, doubled or put in anywhere."""
    raw = bytearray(random.choice(RIGS).encode())
    for _ in range(random.randint(1, 4)):
        at, length = random.randrange(len(raw) + 1), random.choice((0, 1, 3, 40, 400))
        new = random.choice((b"", random.choice(BITS), bytes(raw[at : at + length]) * 2, random.randbytes(3)))
        raw[at : at + length] = new
    made = audit({"low.yaml": SOUND})
    made["files"]["a.yaml"] = raw.decode("latin-1")
    return made


def structure(random: Random) -> Input:
    """A rig whose keys and values are taken away, exchanged, doubled or replaced."""
    return audit({"a.yaml": _changed_rig(random), "low.yaml": SOUND})


def options(random: Random) -> Input:
    """Any options of any command, with values that fit and that do not."""
    words = ("--on", "--format", "--output", "--write", "--stop-at", "--root", "--policy", "--if-any",
    "--leave-out", "--with-rigs",
             "--time", "--sag", "--pull", "--returns", "--staged", "--installed", "--version", "--help",
             "--", "-x", "--form")  # fmt: skip
    values = ("json", "text", "html", "sarif", "r.txt", "json=r.json", "=", "low.yaml", "a.yaml", ".",
    "no.yaml", "DANGER", "2026-05-02",
              "2026-13-01", "", "tail/webbing", "lowline", "-1", "1.3 kN", "sub", "low.yaml/x")  # fmt: skip
    command = random.choice(
        ("audit", "sheet", "card", "compare", "gauge", "rulebook", "draft", "nothing", "")
    )
    call = [random.choice((random.choice(words), random.choice(values))) for _ in range(random.randint(0, 6))]
    return _input({"low.yaml": SOUND, "a.yaml": _changed_rig(random)}, [command, *call])


def names(random: Random) -> Input:
    """Files of odd names, named one by one or found in their folder, in every form of report."""
    files = {
        name: random.choice((SOUND, "riglnt: rig/1\n", "title: x\n")) for name in random.sample(NAMES, 3)
    }
    form = random.choice(("json", "text", "markdown", "html", "sarif", "junit"))
    named = random.choice((["."], sorted(files)))
    return _input(files, ["audit", *DAY, "--format", form, "--", *named])


def policies(random: Random) -> Input:
    """A policy with limits, values, words and rules off that fit and that do not."""
    keys = (
        "tail/webbing.least_tail",
        "model.bounce_height",
        "ratio/peak.least_ratio",
        "model.sheave.ball",
        "no.such",
        "",
    )
    rules = ("tail/webbing", "tail/*", "no/rule", "")
    policy: dict[str, Any] = {"riglint": "policy/1", "title": random.choice(("Club", *LEAVES))}
    value: Any = random.choice(
        (*LEAVES, "0.4 m", "3", {"value": "0.4 m", "because": random.choice(("ours", ""))})
    )
    policy["values"] = {random.choice(keys): value}
    policy["off"] = [{"rule": random.choice(rules), "because": random.choice(("so", "", " "))}]
    policy["signals"] = [
        {"rule": random.choice(rules), "consequence": "life", "signal": random.choice(("DANGER", "x"))}
    ]
    for key in random.sample(("values", "off", "signals"), random.randint(0, 2)):
        del policy[key]
    text = _dumped(_changed(random, policy) if random.random() < 0.3 else policy)
    return _input(
        {"low.yaml": SOUND, "p.yaml": text}, ["audit", *DAY, *JSON, "--policy", "p.yaml", "low.yaml"]
    )


def limits(random: Random) -> Input:
    """How far the values of a changed rig may move."""
    return _input({"a.yaml": _changed_rig(random)}, ["limits", "a.yaml", *DAY, *JSON])


def gauge(random: Random) -> Input:
    """Readings in any unit, with and without a rig."""
    call = ["gauge", *random.choice(([], ["low.yaml"], ["low.yaml"])), *DAY, *JSON]
    words = random.sample(READINGS, random.randint(0, 4))
    call += [f"{word}={random.choice(QUANTITIES)}" for word in words]
    return _input({"low.yaml": random.choice(RIGS)}, call)


def compare(random: Random) -> Input:
    """Two changed rigs side by side."""
    form = random.choice(("json", "text", "markdown"))
    files = {"a.yaml": _changed_rig(random), "b.yaml": random.choice((SOUND, _changed_rig(random)))}
    return _input(files, ["compare", "a.yaml", "b.yaml", *DAY, "--format", form])


def git(random: Random) -> Input:
    """Two commits of odd names and contents in a repository of odd settings."""
    made: Input = _input(
        {}, ["compare", random.choice(("HEAD~1", "HEAD", "no", "--", ":")), "HEAD", *DAY, *JSON]
    )
    made["commits"] = [
        _input({n: _changed_rig(random) for n in random.sample(NAMES, 2)}, [])["files"] for _ in range(2)
    ]
    settings = (
        "core.quotePath",
        "core.autocrlf",
        "core.ignoreCase",
        "i18n.logOutputEncoding",
        "core.bare",
        "diff.external",
    )
    made["settings"] = {random.choice(settings): random.choice(("true", "false", "touch ran", "utf-16"))}
    return made


def editor(random: Random) -> Input:
    """Messages of the editor's protocol, some of them no messages at all."""
    methods = ("didOpen", "didChange", "didClose", "didSave", "hover", "codeAction", "noSuchThing")
    messages: list[dict[str, Any]] = []
    for _ in range(random.randint(1, 6)):
        uri = random.choice(
            ("file:///nowhere/a.yaml", "file:///nowhere/b.yaml", "untitled:x", "", "file://%00")
        )
        text = random.choice((_changed_rig(random), SOUND, "", "\u2028", LEAVES[9]))
        place = {"line": random.choice((0, 3, 10**6)), "character": random.choice((0, 5, 10**6))}
        given = {
            "textDocument": {"uri": uri, "languageId": "yaml",
            "version": random.choice((1, 0, -1)), "text": text},
            "contentChanges": [{"text": text}], "position": place, "range": {"start": place, "end": place},
            "context": {"diagnostics": []},
        }  # fmt: skip
        if random.random() < 0.3:
            given.pop(random.choice(sorted(given)))
        params: Any = random.choice((given, given, given, [], None))
        messages.append({"method": f"textDocument/{random.choice(methods)}", "params": params})
    return {"messages": messages}


TARGETS: dict[str, Callable[[Random], Input]] = {
    "bytes": bytes_, "structure": structure, "options": options, "names": names, "policies": policies, "limits": limits,
    "gauge": gauge, "compare": compare, "git": git, "editor": editor,
}  # fmt: skip


def audit(files: dict[str, str]) -> Input:
    """Return the input that audits files in their folder."""
    return _input(files, ["audit", ".", *DAY, *JSON])


def _input(files: dict[str, str], call: list[str]) -> Input:
    return {"files": {name: text.encode().decode("latin-1") for name, text in files.items()}, "call": call}


def _changed_rig(random: Random) -> str:
    return _dumped(_changed(random, yaml.load(random.choice(RIGS), yaml.BaseLoader)))  # noqa: S506 - texts only


def _dumped(data: Any) -> str:
    return str(yaml.safe_dump(data, sort_keys=False, allow_unicode=True))


def _changed(random: Random, data: Any) -> Any:
    for _ in range(random.randint(1, 3)):
        holders = [one for one in _holders(data) if one]
        if not holders:
            return data
        holder = random.choice(holders)
        key = random.choice(list(holder) if isinstance(holder, dict) else range(len(holder)))
        how = random.randrange(9)
        if how == 0:
            del holder[key]
        elif how == 1 and isinstance(holder, list):
            holder.append(holder[key])
        elif how == 2:
            holder[key] = random.choice(([], {}, [[7]], {"x": "y"}, None))
        elif how == 3 and isinstance(holder, dict):
            holder[f"{key}s"] = holder.pop(key)
        elif how > 4 and isinstance(holder[key], str):
            holder[key] = _other_number(random, holder[key])
        else:
            holder[key] = random.choice(LEAVES)
    return data


def _other_number(random: Random, text: str) -> str:
    """Return a quantity with another number: such rigs are judged, not refused."""
    number, space, unit = text.partition(" ")
    try:
        other = float(number) * random.choice((0.0, 1e-3, 0.5, 0.9, 1.1, 2.0, 30.0))
    except ValueError:
        return text
    doubt = random.choice(("", "", f" \u00b1 {other / 3:.3f} {unit}"))
    return f"{other:.3f}{space}{unit}{doubt}" if unit else f"{other:.0f}"


def _holders(data: Any) -> list[Any]:
    inner = data.values() if isinstance(data, dict) else data if isinstance(data, list) else ()
    own = [data] if isinstance(data, (dict, list)) else []
    return own + [one for value in inner for one in _holders(value)]
