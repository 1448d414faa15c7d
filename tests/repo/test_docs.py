"""What the documents say of the repository is so, and records keep their form."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.repo.sources import ROOT, tracked

PAGES = [path for path in tracked() if path.suffix == ".md" and "vendor" not in path.parts]
RECORDS = sorted(path for path in (ROOT / "docs" / "decisions").glob("*.md") if path.name != "README.md")
FRAGMENTS = sorted(path for path in (ROOT / "changelog.d").glob("*.md") if path.name != "README.md")
KINDS = {"added", "changed", "fixed", "breaking", "numbers"}


def _name(path: Path) -> str:
    return str(path.relative_to(ROOT))


@pytest.mark.parametrize("page", PAGES, ids=_name)
def test_links_between_pages_lead_somewhere(page: Path) -> None:
    """Each relative link or picture of a page is a file or folder of the repository."""
    links = re.findall(r"\]\(([^)#\s]+)[^)]*\)", page.read_text(encoding="utf-8"))
    inside = [link for link in links if "://" not in link and not link.startswith("mailto:")]
    assert [link for link in inside if not (page.parent / link).exists()] == []


@pytest.mark.parametrize("page", PAGES, ids=_name)
def test_make_commands_that_are_told_exist(page: Path) -> None:
    """Each ``make something`` in code quotes is a target of the Makefile."""
    targets = set(re.findall(r"^([a-z-]+):", (ROOT / "Makefile").read_text(encoding="utf-8"), flags=re.M))
    told = set(re.findall(r"(?:`|^)make ([a-z-]+)", page.read_text(encoding="utf-8"), flags=re.M))
    assert told <= targets


@pytest.mark.parametrize("record", RECORDS, ids=_name)
def test_a_decision_has_its_number_and_its_four_parts(record: Path) -> None:
    """Its number stands in name and title; status, context, decision and consequences follow."""
    text = record.read_text(encoding="utf-8")
    number = record.name[:4]
    assert re.fullmatch(r"\d{4}-[a-z0-9-]+\.md", record.name)
    assert text.startswith(f"# {number} ")
    assert re.search(r"^Status: (accepted|proposed|replaced by \d{4})", text, flags=re.M)
    assert re.findall(r"^## (.+)$", text, flags=re.M) == ["Context", "Decision", "Consequences"]


def test_no_two_decisions_share_a_number() -> None:
    """A number means one record."""
    numbers = [record.name[:4] for record in RECORDS]
    assert len(set(numbers)) == len(numbers)


@pytest.mark.parametrize("fragment", FRAGMENTS, ids=_name)
def test_a_change_is_told_in_one_sentence_of_a_known_kind(fragment: Path) -> None:
    """The kind stands in the file's name; one sentence says what is now so."""
    text = fragment.read_text(encoding="utf-8").strip()
    assert fragment.name.split(".")[-2] in KINDS
    assert text.endswith(".")
    assert "\n\n" not in text
