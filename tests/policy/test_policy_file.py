"""What a policy file may say: tightening is free, loosening needs a reason, a mistake keeps it out of force."""

from pathlib import Path

import pytest

from riglint.model.values.ratios import PEAK
from riglint.policy import load_policy
from riglint.rulebook import Rulebook
from riglint.rulekit import Signal
from tests.policy.policies import loaded, refused

TAIL, MONTHS = "tail/webbing.least_tail", "gear/inspection.longest_months"


def test_a_bare_value_tightens(tmp_path: Path, book: Rulebook) -> None:
    force = loaded(tmp_path, f"values: {{{TAIL}: 1 m, gear/inspection.longest_months: 6}}", book)
    assert force.limits == {TAIL: 1.0, "gear/inspection.longest_months": 6.0}
    assert [(one.name, one.old, one.new, one.loosens) for one in force.changes] == [
        (TAIL, "0.5 m", "1 m", False),
        ("gear/inspection.longest_months", "12", "6", False),
    ]


@pytest.mark.parametrize(
    ("body", "line", "told"),
    [
        (f"values:\n  {TAIL}: 0.4 m", 4, (TAIL, "Write {value: 0.4 m, because: …}.")),
        (f"values:\n\n  {MONTHS}: 24", 5, (MONTHS, "Write {value: 24, because: …}.")),
        (
            "values: {model.bounce_height: 0.4 m}",
            3,
            ("model.bounce_height", "Write {value: 0.4 m, because: …}."),
        ),
        (
            "required: [{state: peak, part: webbing, consequence: life, ratio: 2.9}]",
            3,
            ("required ratio of webbing at life", "Add because: … to the entry."),
        ),
        (
            "signals: [{rule: tail/webbing, consequence: life, signal: CAUTION}]",
            3,
            ("signal word of tail/webbing at life", "Add because: … to the entry."),
        ),
    ],
)
def test_loosening_without_a_reason_is_refused(
    tmp_path: Path, book: Rulebook, body: str, line: int, told: tuple[str, str]
) -> None:
    (problem,) = refused(tmp_path, body, book)
    assert problem.message.startswith(f"{told[0]} is loosened from ")
    assert (problem.place.line, problem.do) == (line, told[1])


def test_loosening_with_a_reason_is_told(tmp_path: Path, book: Rulebook) -> None:
    body = f"""values: {{{TAIL}: {{value: 0.4 m, because: one}}}}
required: [{{state: peak, part: webbing, consequence: life, ratio: 2.9, because: two}}]
signals: [{{rule: tail/webbing, consequence: life, signal: CAUTION, because: three}}]
off: [{{rule: site/aircraft, because: four}}]"""
    force = loaded(tmp_path, body, book)
    assert all(one.loosens for one in force.changes)
    assert [one.because for one in force.changes] == ["one", "two", "three", "four"]
    assert force.values.required("webbing", "life") == 2.9
    assert force.words == {("tail/webbing", "life"): Signal.CAUTION}
    assert force.off == {"site/aircraft"}


def test_a_default_written_out_is_no_change(tmp_path: Path, book: Rulebook) -> None:
    body = f"""values: {{{TAIL}: 50 cm, model.sheave.ball: 0.92}}
required: [{{state: peak, part: webbing, consequence: life, ratio: 3.0}}]
signals: [{{rule: tail/webbing, consequence: life, signal: WARNING}}]"""
    force = loaded(tmp_path, body, book)
    assert force.changes == ()
    assert (force.limits, force.values.changed, force.words) == ({}, {}, {})


def test_a_ratio_where_none_was_asked_tightens(tmp_path: Path, book: Rulebook) -> None:
    assert PEAK["backup"].ground is None
    force = loaded(tmp_path, "required: [{state: peak, part: backup, consequence: ground, ratio: 1.5}]", book)
    assert force.values.required("backup", "ground") == 1.5
    assert [(one.old, one.loosens) for one in force.changes] == [("none", False)]


def test_aluminium_is_not_let_in_without_a_reason(tmp_path: Path, book: Rulebook) -> None:
    body = "required: [{state: peak, part: aluminium, consequence: life, ratio: 50}]"
    (problem,) = refused(tmp_path, body, book)
    assert "loosened from never to 50" in problem.message


@pytest.mark.parametrize(
    ("body", "message", "do"),
    [
        ("values: {tail/webing.least_tail: 1 m}", "is no limit or model value", f"Write `{TAIL}`"),
        ("values: {tail/webbing.least_tial: 1 m}", "is no limit or model value", f"Write `{TAIL}`"),
        ("values: {model.bounce_hight: 1 m}", "is no limit or model value", "Write `model.bounce_height`"),
        ("values: {colour: 1 m}", "'colour' is no limit or model value", "`riglint rulebook` lists them all."),
        ("off: [{rule: site/aircaft, because: hall}]", "is no rule", "Write `site/aircraft`"),
        ("signals: [{rule: tail/weebing, consequence: life, signal: DANGER}]", "is no rule", "Write `tail/webbing`"),
        ("required: [{state: peak, part: webing, consequence: life, ratio: 4}]", "class of parts", "Write `webbing`"),
        ("valus: {}", "'valus'", "values"),
        (f"values: {{{TAIL}: 1 kN}}", "kN", "m"),
        (f"values: {{{TAIL}: 1}}", "", "m"),
        (f"values: {{{TAIL}: true}}", "Expected a value, found 'true'", "0.7 m"),
        (f"values: {{{TAIL}: {{value: true, because: x}}}}", "Expected a value, found 'true'", "0.7 m"),
        (f"values: {{{TAIL}: [1 m]}}", "a group or a list", "0.7 m"),
        (f"values: {{{TAIL}: -1 m}}", f"{TAIL}: -1 m is below zero", "zero or more"),
        ("values: {ratio/peak.least_ratio: 2 kN}", "Expected a plain number, found '2 kN'", "without a unit"),
        ("values: {ratio/peak.least_ratio: nan}", "", ""),
        ("values: {ratio/peak.least_ratio: 'nan'}", "Expected a plain number, found 'nan'", "decimal number"),
        ("values: {ratio/peak.least_ratio: 'inf'}", "Expected a plain number, found 'inf'", "decimal number"),
        ("values: {ratio/peak.least_ratio: 1_0}", "Expected a plain number, found '1_0'", "decimal number"),
        ("values: {model.sheave.ball: 0}", "is outside 0.1 to 1", "0.1 to 1"),
        ("values: {model.sheave.ball: 1.2}", "more than the whole", "1 or less"),
        ("required: [{state: peak, part: webbing, consequence: life, ratio: 0}]", "requires nothing", "above zero"),
        ("off: [{rule: site/aircraft}]", "because", ""),
        ("signals: [{rule: tail/webbing, consequence: life, signal: warning}]", "warning", "WARNING"),
    ],
)  # fmt: skip
def test_a_mistake_is_named_with_what_to_write(
    tmp_path: Path, book: Rulebook, body: str, message: str, do: str
) -> None:
    (problem,) = refused(tmp_path, body, book)
    assert problem.place.line == 3
    assert message in problem.message
    assert do in problem.do


def test_all_problems_come_in_one_run(tmp_path: Path, book: Rulebook) -> None:
    body = f"values: {{{TAIL}: 0.1 m, model.x: 1}}\noff: [{{rule: a/b, because: c}}]"
    assert [one.place.line for one in refused(tmp_path, body, book)] == [3, 3, 4]


def test_another_kind_of_document_is_refused(tmp_path: Path, book: Rulebook) -> None:
    file = tmp_path / "shelf.yaml"
    file.write_text("riglint: shelf/1\nitems: {}\n", encoding="utf-8")
    force, (problem,) = load_policy(file, book)
    assert force is None
    assert "This is a shelf document. Expected a policy." in problem.message


@pytest.mark.parametrize("text", [None, "riglint: policy/1\ntitle: [", "riglint: policy/2\ntitle: x\n", ""])
def test_what_cannot_be_read_is_refused(tmp_path: Path, book: Rulebook, text: str | None) -> None:
    file = tmp_path / "club.yaml"
    if text is not None:
        file.write_text(text, encoding="utf-8")
    force, problems = load_policy(file, book)
    assert force is None
    assert problems
    assert all(one.message and one.do for one in problems)


def test_recalled_gear_is_told(tmp_path: Path, book: Rulebook) -> None:
    force = loaded(tmp_path, "recalled: [SH-7]", book)
    assert force.recalled == {"SH-7"}
    assert [(one.name, one.new, one.loosens) for one in force.changes] == [("gear SH-7", "recalled", False)]


def test_where_a_policy_moves_a_word(tmp_path: Path, book: Rulebook) -> None:
    """ratio/peak says WARNING at ground, by itself CAUTION for what is advised and DANGER far below."""
    rule = book.rules["ratio/peak"]
    raised = loaded(tmp_path, "signals: [{rule: ratio/peak, consequence: ground, signal: DANGER}]", book)
    assert raised.word("ratio/peak", rule, "ground") == Signal.DANGER
    assert raised.word("ratio/peak", rule, "ground", Signal.WARNING) == Signal.DANGER
    assert raised.word("ratio/peak", rule, "ground", Signal.CAUTION) == Signal.CAUTION
    assert raised.word("ratio/peak", rule, "fall", Signal.WARNING) == Signal.WARNING
    body = "signals: [{rule: ratio/peak, consequence: ground, signal: NOTICE, because: x}]"
    lowered = loaded(tmp_path, body, book)
    assert lowered.word("ratio/peak", rule, "ground", Signal.WARNING) == Signal.NOTICE
    assert lowered.word("ratio/peak", rule, "ground", Signal.DANGER) == Signal.DANGER


def test_a_raised_word_leaves_nothing_graver_below_it(tmp_path: Path, book: Rulebook) -> None:
    """tail/webbing says CAUTION at ground; a WARNING of its own does not stay below a club's DANGER."""
    tail = book.rules["tail/webbing"]
    force = loaded(tmp_path, "signals: [{rule: tail/webbing, consequence: ground, signal: DANGER}]", book)
    assert force.word("tail/webbing", tail, "ground", Signal.WARNING) == Signal.DANGER
    assert force.word("tail/webbing", tail, "ground", Signal.NOTICE) == Signal.NOTICE


def test_ends_of_what_a_value_may_be(tmp_path: Path, book: Rulebook) -> None:
    """A share may be the whole, a limit of length may be nothing; a share of nothing would divide by it."""
    because = "because: measured here"
    whole = loaded(tmp_path, f"values: {{model.sewn_end: {{value: 1, {because}}}}}", book)
    assert whole.values["sewn_end"] == 1.0
    none = loaded(tmp_path, f"values: {{tail/webbing.least_tail: {{value: 0 m, {because}}}}}", book)
    assert none.limits == {"tail/webbing.least_tail": 0.0}
    for text in ("0", "1.001"):
        (problem,) = refused(tmp_path, f"values: {{model.sewn_end: {{value: {text}, {because}}}}}", book)
        assert text in problem.message
