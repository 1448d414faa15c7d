"""The pages on piece files and joints are true: their files load, and every joint and option is on them."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from pydantic.fields import FieldInfo

from scantling.joinery import joint_families
from scantling.piece.files.spec import BriefSpec, FinishSpec, PartSpec, PieceSpec
from scantling.piece.geometry import dot
from tests.joinery.bench import Made, made, made_of
from tests.joinery.pictures import PICTURED, PICTURES, picture_of
from tests.joinery.test_families import stood

DOCS = Path(__file__).parents[2] / "docs"
PAGE = (DOCS / "piece-files.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```yaml\n(.*?)^```", PAGE, flags=re.M | re.S)
SHARED = ("kind", "between", "note")
"""A stay between parts of a chest: it wants a lid on hinges, so that no two parts alone show it."""
INTRO = """\
# Joints

Every kind of joint a piece file may ask for, and its options. Lengths are in the file's unit unless they have
their own; a default is in millimeters, and a size that follows from the parts is that of inch cutters where
the file is in inches. Under each picture stands how a piece file asks for the joint it shows,
between its parts a and b. How a joint is written stands in [the piece file](piece-files.md).
`SCANTLING_WRITE_DOCS=1 pytest tests/joinery/test_docs.py` writes this page and its
pictures anew.

Every joint has `kind`, `between` (pairs of parts, the one that enters first: PART, PART.start, PART.end or
PART.FACE) and may have a `note`. How its strength is known stands under each; the figures and their sources
are in [strength](strength-and-moving.md).
"""


def _default(info: FieldInfo) -> str:
    if info.is_required():
        return "must be given"
    value = info.default
    if value is None or (value == 0 and any(getattr(m, "gt", None) == 0 for m in info.metadata)):
        return "left out"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return ", ".join(f"{item:g}" for item in value)
    return f"{value:g}" if isinstance(value, int | float) else str(value)


def _strength(name: str) -> str:
    """How the strength of a family's sample is known, kind by kind."""
    strength = stood(PICTURED[name], {}).works[0].strength
    told: dict[str, list[str]] = {}
    for what, figure in (
        ("drawn apart", strength.pull_n),
        ("pressed across", strength.shear_n),
        ("turned", strength.moment_nmm),
        ("turning stiffness", strength.stiffness_nmm_rad),
    ):
        told.setdefault(figure.known.value, []).append(what)
    lines = (f"{', '.join(whats)}: {known}" for known, whats in told.items())
    return f"*Strength:* {'; '.join(lines)}."


def _asked(name: str) -> str:
    """The joint of the picture, as a piece file asks for it between its parts a and b."""
    pair, options = PICTURED[name].between, PICTURED[name].asked("back")
    between = ", ".join(part.format(inner="back") for part in pair)
    lines = [f"kind: {name}", f"between: [[{between}]]"]
    for key, value in options.items():
        written = yaml.safe_dump(value, default_flow_style=True, width=1000).removesuffix("...\n").strip()
        lines.append(f"{key}: {written}")
    return "\n```yaml\n" + "\n".join(lines) + "\n```\n"


def joints_page() -> str:
    """The page, from the options themselves."""
    parts = [INTRO]
    for name, family in sorted(joint_families().items()):
        model = family.options_model
        parts.append(f"\n## {name}\n\n{(model.__doc__ or '').strip()}\n")
        parts.append(f"\n![{name.replace('_', ' ')}, taken apart](pictures/joints/{name}.svg)\n")
        parts.append(_asked(name))
        rows = [
            f"| `{option}` | {info.description} | {_default(info)} |"
            for option, info in model.model_fields.items()
            if option not in SHARED
        ]
        if rows:
            parts.append("\n| option | what it is | default |\n|---|---|---|\n" + "\n".join(rows) + "\n")
        parts.append(f"\n{_strength(name)}\n")
    return "".join(parts)


def test_the_page_of_joints_is_up_to_date() -> None:
    """Every family and every option is on it, in the words the editor shows."""
    path = DOCS / "joints.md"
    if os.environ.get("SCANTLING_WRITE_DOCS"):
        path.write_text(joints_page(), encoding="utf-8")
    assert path.read_text(encoding="utf-8") == joints_page()


def test_every_family_is_asked_for_on_the_page_as_it_can_be_made() -> None:
    """Each has its block; between the parts of the picture, it makes that joint."""
    page = (DOCS / "joints.md").read_text(encoding="utf-8")
    blocks = [yaml.safe_load(text) for text in re.findall(r"^```yaml\n(.*?)^```", page, flags=re.M | re.S)]
    assert [block["kind"] for block in blocks] == sorted(joint_families())
    for block in blocks:
        sample = PICTURED[block["kind"]]
        (work,) = made_of(sample.parts, {"j": block}).works
        assert work.cuts == stood(sample, {}).works[0].cuts


@pytest.mark.parametrize("family", PICTURED)
def test_the_pictures_of_joints_are_up_to_date(family: str) -> None:
    """Drawn from the solids as they are cut now; lines may lie a hundredth of a millimeter aside."""
    path = PICTURES / f"{family}.svg"
    drawn = picture_of(family)
    if os.environ.get("SCANTLING_WRITE_DOCS"):
        path.parent.mkdir(exist_ok=True)
        path.write_text(drawn, encoding="utf-8")
    kept = path.read_text(encoding="utf-8")
    figure = re.compile(r"-?\d+(?:\.\d+)?")
    assert figure.sub("#", kept) == figure.sub("#", drawn)
    assert [float(x) for x in figure.findall(kept)] == pytest.approx(
        [float(x) for x in figure.findall(drawn)], abs=0.01
    )


def test_every_option_says_what_it_is() -> None:
    """No option goes without a sentence."""
    bare = [
        f"{name}.{option}"
        for name, family in joint_families().items()
        for option, info in family.options_model.model_fields.items()
        if option != "kind" and not info.description
    ]
    assert bare == []


def bench() -> Made:
    """The page's own bench."""
    return made(BLOCKS[0])


def test_the_bench_of_the_page_can_be_made() -> None:
    """It reads, joins, no two parts are in each other's way, and nothing falls apart."""
    piece = bench()
    assert {piece.mesh(name).pieces for name in piece.piece.parts} == {1}
    assert [
        (w.joint, piece.in_the_way(w.first, w.second))
        for w in piece.works
        if piece.in_the_way(w.first, w.second)
    ] == []


def test_the_rail_of_the_page_is_as_long_as_it_says() -> None:
    """By hand: 2 (380 + 140 tan 10 - 20 / cos 10 + 35 tan 10) along the long edge, ends at 10 degrees."""
    rail = bench().piece.parts["rail"]
    assert round(rail.length_mm, 1) == float(re.findall(r"long edge is ([\d.]+) mm", PAGE)[0])
    lean = [dot(trim.plane.normal, (1.0, 0.0, 0.0)) for trim in rail.trims]
    assert [round(abs(c), 6) for c in lean] == [0.984808, 0.984808]  # cos 10 deg


def _merged(base: Any, more: Any) -> Any:
    if isinstance(base, dict) and isinstance(more, dict):
        return {**base, **{key: _merged(base.get(key), value) for key, value in more.items()}}
    return more


@pytest.mark.parametrize("block", BLOCKS[1:], ids=lambda block: block.split()[0])
def test_the_pages_fragments_fit_into_its_bench(block: str) -> None:
    """Each fragment, laid into the bench's file, reads and joins."""
    data = _merged(yaml.safe_load(BLOCKS[0]), yaml.safe_load(block))
    assert made(yaml.safe_dump(data, sort_keys=False)).works


def _fields() -> Iterator[str]:
    for model in (PieceSpec, PartSpec, FinishSpec, BriefSpec):
        for name, info in model.model_fields.items():
            yield info.alias or name


@pytest.mark.parametrize("field", sorted(set(_fields()) - {"about", "hidden_coats", "corridor", "ceiling"}))
def test_every_field_of_a_piece_file_is_on_the_page(field: str) -> None:
    """A maker finds each field by its name."""
    assert re.search(rf"\b{field}\b", PAGE)
