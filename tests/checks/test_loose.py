"""Parts that no joint connects with the rest of the piece, and the joints named as a way out."""

from __future__ import annotations

import math
import re

import pytest

from checks.bench import YEAR, X, Y, Z, part, subject, work
from scantling.checks import loose, run
from scantling.checks.subject import Subject
from scantling.errors import Finding, Severity
from scantling.joinery.joining import join, load_piece_text
from scantling.piece.apart import apart_mm
from scantling.piece.geometry import Frame

OPTIONS = {
    "mortise_tenon": ", length: 20 mm",
    "loose_tenon": ", thickness: 6 mm, width: 20 mm, depth_first: 20 mm, depth_second: 12 mm",
    "dowel_pin": ", diameter: 6 mm, depth_first: 20 mm, depth_second: 12 mm, inset: 8 mm",
    "housing": ", depth: 5 mm",
    "edge_glue": "",
    "face_lamination": "",
    "slotted_screw": ", screw: [4 mm, 50 mm], counterbore: 20 mm",
    "top_button": ", from_top: 10 mm, tongue: 6 mm",
    "top_clip": ", groove: 3 mm, from_top: 10 mm, engaged: 8 mm",
    "figure_eight": "",
    "halving": "",
    "miter": "",
    "notch": "",
    "panel_groove": "",
    "breadboard_end": "",
    "dovetail": "",
    "finger_joint": "",
}
"""Options with which each family is asked for; those that must be given, and screws that reach."""


def made(name: str, at: str, along: str, section: str, **more: str) -> str:
    """A part of a piece file, as text: where its middle is, which way it runs, its section."""
    rows = {"kind": "stick", "species": "white oak", "length": "400 mm", "width_toward": "top", **more}
    rows |= {"center": f"[{at}]", "along": along, "section": f"[{section}]"}
    return f"  {name}:\n" + "".join(f"    {key}: {value}\n" for key, value in rows.items())


BROAD = {"kind": "panel", "width_toward": "back"}
PLY = {"kind": "sheet", "species": "birch plywood"}
FLAT = {"width_toward": "right"}
POST = made("post", "0, 0, 200", "top", "40, 40", **FLAT)
RAIL = made("rail", "220, 0, 200", "right", "50, 22")
UNDER = made("rail", "0, 0, 100", "right", "60, 22")
SIDE = made("side", "0, 0, 200", "top", "200, 20", **BROAD)
PAIRS = {
    "end on side": POST + RAIL,
    "end in line": RAIL + made("beside", "620, 0, 200", "right", "50, 22"),
    "mitered ends": made("rail", "0, 0, 200", "right", "50, 60", trim="{end: miter with turned}")
    + made("turned", "200, 200, 200", "back", "50, 60", trim="{start: miter with rail}"),
    "shelf end": SIDE + made("shelf", "210, 0, 200", "right", "200, 20", **BROAD),
    "box corner": made("side", "0, 0, 75", "right", "150, 15")
    + made("front", "207.5, 192.5, 75", "back", "150, 15"),
    "panel end": made("field", "0, 0, 200", "right", "400, 24", **BROAD)
    + made("cap", "245, 0, 200", "back", "90, 24", width_toward="right"),
    "sheet end": made("field", "0, 0, 200", "right", "400, 24", **{**BROAD, **PLY})
    + made("cap", "245, 0, 200", "back", "90, 24", width_toward="right"),
    "top on rail": UNDER + made("top", "0, 100, 142.5", "right", "300, 25", **BROAD),
    "edges": UNDER + made("beside", "0, 0, 160", "right", "60, 22"),
    "faces": UNDER + made("beside", "0, 22, 100", "right", "60, 22"),
    "across": UNDER + made("over", "0, 0, 141", "back", "60, 22", **FLAT),
    "crossing": UNDER + made("over", "0, 0, 130", "back", "22, 60", **FLAT),
    "panel in rail": UNDER + made("field", "0, 0, 225", "right", "208, 10", kind="panel"),
}


def told(parts: str) -> tuple[Finding, str]:
    """The only loose part of a piece of two parts, and its file."""
    text = f"scantling: 1\ntitle: t\nunits: mm\nparts:\n{parts}"
    piece = load_piece_text(text)
    (found,) = loose.check(Subject(piece=piece, works=(), moisture=YEAR))
    return found, text


@pytest.mark.parametrize("name", PAIRS)
def test_every_family_named_makes_a_joint_there(name: str) -> None:
    """What the way out offers is taken at its word: each family joins the two parts, first named first."""
    found, text = told(PAIRS[name])
    families = [family for family in OPTIONS if re.search(rf"\b{family}\b", found.advice)]
    assert families
    parts = re.findall(r"^  (\w+):$", text, re.MULTILINE)
    pair = re.search(r"from (\w+)(?: \(its (\w+)\))? to (\w+)(?: \(its (\w+)\))?", found.advice)
    first, end, second, other_end = pair.groups() if pair else (parts[0], None, parts[1], None)
    for family in families:
        face = re.search(r"from its (\w+) face", found.advice) if family in _FASTENERS else None
        tail = face[1] if face else end
        one = f"{first}.{tail}" if tail else first
        two = f"{second}.{other_end}" if other_end else second
        asked = f"kind: {family}, between: [[{one}, {two}]]{OPTIONS[family]}"
        joint = f"joints:\n  j: {{{asked}}}\n"
        piece = load_piece_text(text + joint)
        works = join(piece, moisture=YEAR)
        assert loose.check(Subject(piece=piece, works=works, moisture=YEAR)) == []


_FASTENERS = ("top_button", "top_clip", "figure_eight")


def test_a_part_that_stops_short_is_told_with_the_gap() -> None:
    """A rail 12 mm off its post is said to stop 12 mm short, and no family is named."""
    found, _ = told(POST + made("rail", "232, 0, 200", "right", "50, 22"))
    assert found.severity is Severity.HIGH
    assert "rail, is 12.0 mm from post" in found.message or "post, is 12.0 mm from rail" in found.message
    assert "12.0 mm short" in found.advice
    assert found.numbers["gap_mm"] == pytest.approx(12.0)
    assert "fit" not in found.advice


def test_a_drawer_in_its_gap_is_not_told_to_be_joined_shut() -> None:
    """A gap of a drawer's, 1.5 mm, names the fit in its opening as well; 12 mm are no such gap."""
    found, _ = told(POST + made("rail", "221.5, 0, 200", "right", "50, 22"))
    assert "1.5 mm short" in found.advice
    assert "(opening fit)" in found.advice


def test_contact_and_depth_are_told_in_figures() -> None:
    """Faces that touch are told by the size of the contact, parts drawn one in the other by how deep."""
    touching, _ = told(PAIRS["end on side"])
    assert "over 50 mm by 22 mm" in touching.message
    assert touching.numbers["contact_mm2"] == pytest.approx(50.0 * 22.0)
    thin, _ = told(POST + made("rail", "220, 0, 200", "right", "88.9, 12.7"))
    assert "over 88.9 mm by 12.7 mm" in thin.message
    crossing, _ = told(PAIRS["panel in rail"])
    assert "9.0 mm deep in" in crossing.message


def test_groups_are_told_once_and_the_largest_is_the_piece() -> None:
    """A top with its ends, held by no fastening, is one finding named for the top; the frame is none."""
    high = Frame(origin=(0.0, 0.0, 50.0), grain=X, width=Y, thickness=Z)
    frame = [part(f"rail{k}") for k in range(3)]
    top = [part("cap", length=90.0, frame=high), part("top", width=400.0, frame=high)]
    tied = [work(f"j{k}", f"rail{k}", f"rail{k + 1}") for k in range(2)]
    piece = subject((*frame, *top), (*tied, work("b", "cap", "top")))
    (found,) = loose.check(piece)
    assert found.where == "top"
    assert "top, cap" in found.message
    assert (
        loose.check(subject((*frame, *top), (*tied, work("b", "cap", "top"), work("s", "rail0", "top"))))
        == []
    )


def test_a_loose_part_is_set_aside_with_a_reason() -> None:
    """A lid that lies on its box is a note once the maker says so."""
    lid = part("lid", frame=Frame(origin=(0.0, 0.0, 20.0), grain=X, width=Y, thickness=Z))
    box = (part("front"), part("back"))
    tied = (work("j", "front", "back"),)
    assert [f.code for f in run(subject((*box, lid), tied)).errors] == ["F72"]
    assert run(subject((*box, lid), tied, accept={"F72 lid": "it lifts off"})).errors == ()


def test_one_part_alone_is_a_piece() -> None:
    """A piece of a single part has nothing to be joined to."""
    assert loose.check(subject((part("board"),))) == []


@pytest.mark.parametrize(
    ("frame", "wanted"),
    [
        (Frame(origin=(0.0, 0.0, 30.0), grain=X, width=Y, thickness=Z), 10.0),
        (Frame(origin=(703.0, 0.0, 24.0), grain=X, width=Y, thickness=Z), 5.0),
        (Frame(origin=(703.0, 94.0, 32.0), grain=X, width=Y, thickness=Z), 13.0),
        (Frame(origin=(0.0, 0.0, 20.0), grain=X, width=Y, thickness=Z), 0.0),
    ],
)
def test_distance_of_boxes_in_closed_form(frame: Frame, wanted: float) -> None:
    """Face over face; edge to edge 3 and 4 mm away; corner to corner 3, 4 and 12 mm away; touching."""
    assert apart_mm(part("a"), part("b", frame=frame)) == pytest.approx(wanted, abs=1e-9)


def test_distance_of_crossed_edges() -> None:
    """Two sticks turned on edge and crossed: from ridge to ridge, which no face's plane measures."""
    turned = math.sqrt(0.5)
    low = Frame(
        origin=(0.0, 0.0, 0.0), grain=X, width=(0.0, turned, turned), thickness=(0.0, -turned, turned)
    )
    high = Frame(
        origin=(350.0, -350.0, 40.0), grain=Y, width=(turned, 0.0, turned), thickness=(turned, 0.0, -turned)
    )
    one, other = (part(n, frame=f, width=20.0, thickness=20.0) for n, f in (("a", low), ("b", high)))
    assert apart_mm(one, other) == pytest.approx(40.0 - 20.0 * math.sqrt(2.0))


def test_of_many_loose_parts_each_is_told_its_true_nearest() -> None:
    """Sticks askew in a cloud, none joined: the distance told is the least of those to all others."""
    turns = [math.radians(37.0 * k) for k in range(9)]
    sticks = [
        part(
            f"s{k}",
            frame=Frame(
                origin=(90.0 * (k % 3), 170.0 * (k // 3), 61.0 * (k % 4)),
                grain=(math.cos(turn), math.sin(turn), 0.0),
                width=(-math.sin(turn), math.cos(turn), 0.0),
                thickness=Z,
            ),
            width=20.0,
            thickness=12.0,
        )
        for k, turn in enumerate(turns)
    ]
    told = {f.where: f.numbers["gap_mm"] for f in loose.check(subject(tuple(sticks))) if f.numbers["gap_mm"]}
    assert len(told) > 3
    for name, gap_mm in told.items():
        own = next(stick for stick in sticks if stick.name == name)
        assert gap_mm == pytest.approx(min(apart_mm(own, other) for other in sticks if other is not own))
