"""What stands in no file of ours: hosts of package indexes, paths of one machine, names of brands."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Collection, Mapping
from pathlib import Path

from tests.repo.sources import ROOT, own_texts

INDEX_HOST = re.compile(r"://(?:[\w-]+\.)*(?:files|npm|packages|pypi|registry)[\w-]*\.\w")
MACHINE_PATH = re.compile(r"(?<![\w.:/~$}*-])/(?:home|mnt|opt|root|srv|Users|work)/\w")
BRANDS = frozenset((ROOT / "tests" / "repo" / "brands.sha256").read_text(encoding="utf-8").split())
"""First twelve digits of the SHA-256 of each brand's word, so that no file of ours names one."""


def _lines_with(pattern: re.Pattern[str]) -> list[str]:
    return [
        f"{path.relative_to(ROOT)}: {found[0]}"
        for path, text in own_texts().items()
        for found in pattern.finditer(text)
    ]


def _digest(word: str) -> str:
    return hashlib.sha256(word.encode()).hexdigest()[:12]


def _branded(texts: Mapping[Path, str], brands: Collection[str]) -> dict[str, Path]:
    """Each brand's word found, and a file it stands in."""
    words = {word: path for path, text in texts.items() for word in re.findall(r"[^\W\d_]+", text.lower())}
    return {word: path for word, path in words.items() if _digest(word) in brands}


def test_no_file_names_the_host_of_a_package_index() -> None:
    """Packages come from wherever the installer is told to look."""
    assert _lines_with(INDEX_HOST) == []


def test_no_file_holds_a_path_of_one_machine() -> None:
    """Paths are relative to the repository or found at run time."""
    assert _lines_with(MACHINE_PATH) == []


def test_no_file_holds_the_name_of_a_brand() -> None:
    """The words are the trade's: loose tenon, PVA, high-pressure laminate."""
    assert _branded(own_texts(), BRANDS) == {}


def test_hosts_are_told_from_other_addresses() -> None:
    """An index is caught and a source that is cited is not."""
    assert INDEX_HOST.search("https://" + "registry.example.org/left")
    assert not INDEX_HOST.search("https://doi.org/10.2737/FPL-GTR-282")


def test_machine_paths_are_told_from_others() -> None:
    """A maker's folder is caught; a program of the system and a relative path are not."""
    assert MACHINE_PATH.search("open('" + "/home" + "/joiner/top.yaml')")
    assert not MACHINE_PATH.search("/usr/bin/chromium ~/work/top.yaml src/work/top.yaml")


def test_a_brand_is_found_whatever_its_case() -> None:
    """An invented word, listed by its digest, is found in the file it stands in."""
    texts = {Path("a.md"): "Spread with Zubberglue.", Path("b.md"): "Spread with PVA."}
    assert _branded(texts, {_digest("zubberglue")}) == {"zubberglue": Path("a.md")}
