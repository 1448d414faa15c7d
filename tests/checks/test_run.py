"""All rules in one report, and the list of rules that are checked."""

from __future__ import annotations

import ast
import re
from itertools import pairwise
from pathlib import Path

from checks.bench import part, subject, work
from scantling.checks import Rule, codes, finding, rule, rules, run
from scantling.checks.remedies import REMEDIED
from scantling.errors import Finding, Severity
from scantling.joinery.work import JointWork
from scantling.piece.model import Part
from scantling.plan.made.built_remedies import BUILT_REMEDIED

ROOT = Path(__file__).parents[2]


def checked() -> set[str]:
    """Codes that some code under src reports, in a function that other code there uses."""
    told: dict[str, set[str]] = {}
    used: set[str] = set()
    for file in (ROOT / "src" / "scantling").rglob("*.py"):
        for block in ast.parse(file.read_text(encoding="utf-8")).body:
            if isinstance(block, ast.Import | ast.ImportFrom):
                continue
            name = getattr(block, "name", "")
            used |= {word for word in words_of(block) if word != name}
            text = ast.unparse(block)
            for code in re.findall(r"(?:finding\(\s*|code=|^[A-Z_]+ = )[\"'](F\d\d)[\"']", text):
                told.setdefault(code, set()).add(name)
    return {code for code, names in told.items() if names & (used | {""})}


def words_of(block: ast.AST) -> set[str]:
    """Names and attributes that a piece of code uses."""
    return {
        node.id if isinstance(node, ast.Name) else node.attr
        for node in ast.walk(block)
        if isinstance(node, ast.Name | ast.Attribute)
    }


def limits_read() -> set[tuple[str, str]]:
    """Limits that the code under src names, with the code of a rule in the same function or class."""
    pairs: set[tuple[str, str]] = set()
    for file in (ROOT / "src" / "scantling").rglob("*.py"):
        for block in ast.parse(file.read_text(encoding="utf-8")).body:
            told = {
                n.value for n in ast.walk(block) if isinstance(n, ast.Constant) and isinstance(n.value, str)
            }
            codes_here = {word for word in told if re.fullmatch(r"F\d\d", word)}
            pairs |= {(code, word) for code in codes_here for word in told}
    return pairs


def tied(parts: tuple[Part, ...]) -> tuple[JointWork, ...]:
    """Joints that connect the parts one to the next, and do nothing else."""
    return tuple(work(f"tie{k}", a.name, b.name) for k, (a, b) in enumerate(pairwise(parts)))


def weight(known: Rule) -> str:
    """A rule's severity in the list, with its grades."""
    if not known.grades:
        return known.severity.value
    grades = ", ".join(f"{g.severity.value} above {g.above:g} ({g.provenance.value})" for g in known.grades)
    return f"{known.severity.value}; {grades}: {known.graded_by}"


def page() -> str:
    """The list of rules as it stands in the documentation."""
    done = checked()
    lines = [
        "# Design rules",
        "",
        "Every rule, how much it matters, its limits and whether it is checked. Made from the catalogue;",
        "`SCANTLING_WRITE_DOCS=1 pytest tests/checks/test_run.py` writes it anew.",
        "",
        "`stop`: it cannot be made so, or must not be. `high`: it will go wrong, or is clearly over a",
        "limit; `check` refuses the piece for both. `medium`: worth a change, or a little over a limit.",
        "`note`: good to know. A graded rule weighs more the further a limit is passed: its mildest grade",
        "stands first, then from which measure on it is graver, and what is measured.",
        "",
        "| code | fault | severity | limits | where from | state |",
        "|---|---|---|---|---|---|",
    ]
    for known in rules().values():
        limits = "; ".join(f"{t.name} {t.value:g} ({t.provenance.value})" for t in known.thresholds)
        state = "checked" if known.code in done else "not yet checked"
        lines.append(
            f"| {known.code} | {known.title} | {weight(known)} | {limits} | {known.source} | {state} |"
        )
    lines += [
        "",
        "## With a remedy",
        "",
        "Where one change of the piece file plainly mends a finding, it carries that change: a key beside it",
        "on the page of a kept piece writes it as a version (undo is there), a page served from a file sets",
        "a parameter in its address or shows the line to write, and `scantling check` prints it. Each is",
        "tried in a test: the finding goes, and nothing serious comes. Sizes are set to the next half",
        "millimeter, or sixteenth of an inch; those of M01 to a tenth, or a thousandth of an inch. What is",
        "[measured](measured.md) and no longer fits (M01 to M07) has its keys at the bench too.",
        "",
        *(f"- {code} {rule(code).title}: {words}." for code, words in REMEDIED.items()),
        *(f"- {code} {words}." for code, words in BUILT_REMEDIED.items()),
    ]
    open_rules = [known for known in rules().values() if known.unchecked]
    lines += [
        "",
        "## Not checked, and why",
        "",
        *(f"- {r.code} {r.title}: {r.unchecked}" for r in open_rules),
    ]
    return "\n".join(lines) + "\n"


def test_a_rule_is_checked_or_says_why_not() -> None:
    """Never both: a reason goes when the check comes."""
    assert {known.code for known in rules().values() if known.unchecked} == set(codes()) - checked()


def test_every_limit_of_a_rule_is_held_against_something() -> None:
    """A limit that nothing reads would stand in the documentation and change nothing."""
    named = {(known.code, limit.name) for known in rules().values() for limit in known.thresholds}
    assert named - limits_read() == set()


def test_documentation_lists_every_rule_with_its_state() -> None:
    """docs/rules.md is what the catalogue and the code say today."""
    import os

    file = ROOT / "docs" / "rules.md"
    if os.environ.get("SCANTLING_WRITE_DOCS"):
        file.write_text(page(), encoding="utf-8")
    assert file.read_text(encoding="utf-8") == page()


def test_every_reported_code_is_in_the_catalogue() -> None:
    """No finding carries a number that stands for nothing, and at least the first ring is checked."""
    assert checked() <= set(codes())
    assert len(checked()) >= 15


def test_run_gathers_families_rules_and_others_worst_first() -> None:
    """Findings of a joint's family, of these rules and of other packages stand in one sorted report."""
    own = Finding(code="F26", severity=Severity.MEDIUM, where="a/b", message="long")
    legs = tuple(part(f"leg{k}", like="leg", mirrored=k == 0) for k in range(4))
    other = finding("F46", where="shelf", message="sags")
    told = work("a/b", "leg0", "leg1", findings=(own,))
    report = run(subject(legs, (told, *tied(legs))), others=(other,))
    assert [f.code for f in report.findings] == ["F60", "F46", "F26", "F65"]
    assert report.findings[2].advice == rule("F26").advice
    assert report.findings[2].source == rule("F26").source


def test_a_family_is_not_repeated() -> None:
    """What a joint's family says itself is not said twice."""
    from scantling.checks import glue
    from scantling.joinery.work import GlueFace

    face = GlueFace(parts=("a", "b"), area_mm2=1.0, grain_angle_deg=90, end_grain_share=0, cross_span_mm=200)
    own = finding("F01", where="a/b", message="told")
    piece = subject((part("a"), part("b")), (work("a/b", "a", "b", glue=(face,), findings=(own,)),))
    assert [f.code for f in glue.check(piece)] == []
    assert [f.message for f in run(piece).findings if f.code == "F01"] == ["told"]


def test_a_rule_set_aside_in_the_file_is_a_note_with_its_reason() -> None:
    """What the maker accepts no longer stops the piece, and still stands in the report."""
    legs = tuple(part(f"leg{k}", like="leg", mirrored=k == 0) for k in range(4))
    assert run(subject(legs, tied(legs))).errors
    report = run(subject(legs, tied(legs), accept={"F60": "one leg is a corner post"}))
    assert report.errors == ()
    assert report.findings[0].severity is Severity.NOTE
    assert "corner post" in report.findings[0].advice
    assert run(subject(legs, tied(legs), accept={"F60 other": "no"})).errors


def test_a_reason_given_for_one_place_does_not_hide_another() -> None:
    """A rule set aside without a place is no longer set aside once it stands in two; a named place is."""
    tables = (part("board"),)
    bare = {"F60": "one leg is a corner post"}
    both = [
        finding("F60", where="leg_fl", message="m"),
        finding("F60", where="rail_to_leg.1", message="m"),
        finding("F60", where="rail_to_leg.2", message="m"),
    ]
    left = run(subject(tables, accept=bare), others=both)
    assert all(
        item.severity is not Severity.NOTE for item in left.findings if item in both or item.code == "F60"
    )
    named = run(subject(tables, accept={"F60 rail_to_leg": "sound"}), others=both)
    aside = {item.where for item in named.findings if "Set aside" in (item.advice or "")}
    assert aside == {"rail_to_leg.1", "rail_to_leg.2"}
    one = run(subject(tables, accept={"F60 *_to_leg.2": "sound"}), others=both)
    assert {item.where for item in one.findings if "Set aside" in (item.advice or "")} == {"rail_to_leg.2"}


def test_a_place_is_named_as_it_is_shown_or_by_its_part_alone() -> None:
    """``Rail to leg, both``, ``Board`` and ``board`` set aside rail_to_leg.1 and board/..."""
    found = [
        finding("F60", where="rail_to_leg.1", message="m"),
        finding("F60", where="board/last joints", message="m"),
    ]
    for key in ("F60 Rail to leg, both", "F60 rail_to_leg"):
        report = run(subject((part("board"),), accept={key: "sound"}), others=found[:1])
        assert [item.severity for item in report.findings if item.code == "F60"] == [Severity.NOTE]
    for key in ("F60 Board", "F60 board", "F60 Board: last joints"):
        report = run(subject((part("board"),), accept={key: "sound"}), others=found[1:])
        assert [item.severity for item in report.findings if item.code == "F60"] == [Severity.NOTE]


def test_a_place_at_which_nothing_is_set_aside_is_told() -> None:
    """A misspelt place is a note with the names that would do; a known place with no finding is not."""
    found = [finding("F60", where="rail_to_leg.1", message="m")]
    report = run(subject((part("board"),), accept={"F60 rail_to_lag": "sound"}), others=found)
    [note] = [
        item for item in report.findings if item.severity is Severity.NOTE and item.where == "rail_to_lag"
    ]
    assert "no part or joint is called that" in note.message
    assert note.advice == "Write `F60 rail_to_leg`."
    quiet = run(subject((part("board"),), accept={"F60 board": "sound"}))
    assert [item for item in quiet.findings if item.code == "F60"] == []
    nowhere = run(subject((part("board"),), accept={"F60 bord": "sound"}))
    assert [item.where for item in nowhere.findings if item.code == "F60"] == ["bord"]
