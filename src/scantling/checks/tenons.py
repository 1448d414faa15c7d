"""Size of tenons, and the wood beyond their pins: F17, F18, F19."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.checks.catalogue import finding, limit
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.joinery.mortise_tenon import MortiseTenonOptions
from scantling.joinery.work import ConnectorKind, Cut, Extension, Hole, JointWork, MarkKind, Slot
from scantling.piece.convex import body_of
from scantling.piece.model import End, Part

__all__ = ["Tenon", "check", "tenon_of"]

_BEHIND_MM = 6.0
"""Wood a blind tenon leaves behind it, as beside it (common practice). [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tenon:
    """A joint's tenon: thickness, how far it stands in the receiving part, and the two parts. [mm]"""

    thickness_mm: float
    depth_mm: float
    on: str
    into: str


def tenon_of(work: JointWork) -> Tenon | None:
    """The joint's tenon, from its loose tenons or from what is marked out; None if it has none."""
    for connector in work.connectors:
        if connector.kind is ConnectorKind.LOOSE_TENON and len(connector.size_mm) == 3:
            thickness, _, length = connector.size_mm
            depth = _stands_in(work, length_mm=length)
            return Tenon(thickness_mm=thickness, depth_mm=depth, on=work.first, into=work.second)
    for mark in work.marks:
        if mark.kind is MarkKind.TENON:
            into = work.second if mark.part == work.first else work.first
            depth = min(mark.depth_mm, _least_depth(work, into, otherwise=mark.depth_mm))
            return Tenon(thickness_mm=mark.width_mm, depth_mm=depth, on=mark.part, into=into)
    return None


def _stands_in(work: JointWork, *, length_mm: float) -> float:
    """How far a loose tenon stands in the second part: half, or the mortise less the air behind it. [mm]"""
    half = length_mm / 2.0
    first, second = (_least_depth(work, part, otherwise=half) for part in (work.first, work.second))
    return second - max(first + second - length_mm, 0.0) / 2.0


def _least_depth(work: JointWork, part: str, *, otherwise: float) -> float:
    depths = [m.depth_mm for m in work.marks if m.kind is MarkKind.MORTISE and m.part == part]
    return min(depths, default=otherwise)


def check(subject: Subject) -> list[Finding]:
    """Findings on every tenon."""
    found: list[Finding] = []
    for work in subject.works:
        tenon = tenon_of(work)
        if tenon is not None and subject.part(tenon.on).round is None:
            found += _share(subject, work, tenon)
            found += _length(subject, work, tenon)
        for extension in work.extensions:
            found += _pins(subject, work, extension)
    return found


def _abreast(subject: Subject, work: JointWork) -> int:
    """How many tenons share the thickness of their part."""
    for joint in subject.piece.joints:
        if joint.name == work.joint and isinstance(joint.options, MortiseTenonOptions):
            return int(joint.options.abreast)
    return 1


def _share(subject: Subject, work: JointWork, tenon: Tenon) -> list[Finding]:
    part = subject.part(tenon.on)
    thick = min(part.thickness_mm, part.width_mm)
    least = limit("F17", "least_share") * thick
    most = limit("F17", "most_share") * thick
    abreast = _abreast(subject, work)
    together = abreast * tenon.thickness_mm
    if least - 1e-6 <= together <= most + 1e-6 or subject.told(work, "F17"):
        return []
    named = f"{tenon.thickness_mm:.1f} mm tenon is"
    if abreast > 1:
        named = f"{abreast} tenons of {tenon.thickness_mm:.1f} mm abreast are"
    return [
        finding(
            "F17",
            where=work.joint,
            message=f"the {named} {together / thick:.2f} of the "
            f"{thick:.1f} mm {part.name}; {least:.1f} to {most:.1f} mm is usual",
            numbers={"thickness_mm": together, "least_mm": least, "most_mm": most},
        )
    ]


def _length(subject: Subject, work: JointWork, tenon: Tenon) -> list[Finding]:
    wanted = limit("F18", "ratio") * tenon.thickness_mm
    if tenon.depth_mm >= wanted - 1e-6 or subject.told(work, "F18"):
        return []
    return [
        finding(
            "F18",
            where=work.joint,
            message=f"the {tenon.thickness_mm:.1f} mm tenon stands {tenon.depth_mm:.1f} mm in "
            f"{tenon.into}; at least {wanted:.0f} mm",
            advice=_other_tenon(subject, work, tenon, wanted_mm=wanted),
            numbers={
                "depth_mm": tenon.depth_mm,
                "wanted_mm": wanted,
                "thinner_mm": tenon.depth_mm / limit("F18", "ratio"),
            },
        )
    ]


def _other_tenon(subject: Subject, work: JointWork, tenon: Tenon, *, wanted_mm: float) -> str | None:
    """A way out where the part that receives is too thin for a deeper one; None where it has room."""
    part = subject.part(tenon.into)
    body = body_of(part)
    low, high = body.extent(work.leaves)
    thick = min(high - low, part.length_mm)
    if wanted_mm <= thick - _BEHIND_MM + 1e-6:
        return None
    thinner = tenon.depth_mm / limit("F18", "ratio")
    on = subject.part(tenon.on)
    ways = [f"house the end of {tenon.on} in {tenon.into}"]
    if thinner >= limit("F17", "least_share") * min(on.thickness_mm, on.width_mm):
        ways.insert(0, f"use a tenon of at most {thinner:.1f} mm")
    if wanted_mm <= thick + 1e-6:
        ways.insert(0, f"take it through {tenon.into} and wedge it")
    text = ", or ".join(ways)
    return f"{tenon.into} is {thick:.0f} mm there, too thin for a blind one {wanted_mm:.0f} mm deep: {text}."


def _pins(subject: Subject, work: JointWork, extension: Extension) -> list[Finding]:
    part = subject.part(extension.part)
    if subject.told(work, "F19"):
        return []
    found: list[Finding] = []
    for cut in work.cuts:
        if cut.part != part.name or "pin" not in cut.what or not isinstance(cut.tool, Hole | Slot):
            continue
        diameter = cut.tool.diameter_mm if isinstance(cut.tool, Hole) else cut.tool.width_mm
        wanted = limit("F19", "diameters") * diameter
        beyond = _beyond_mm(part, extension, cut)
        if beyond < wanted - 1e-6:
            found.append(
                finding(
                    "F19",
                    where=work.joint,
                    message=f"the {diameter:.0f} mm pin is {beyond:.1f} mm from the end of the tenon on "
                    f"{part.name}; at least {wanted:.0f} mm",
                    numbers={"beyond_mm": beyond, "wanted_mm": wanted, "shortfall_mm": wanted - beyond},
                )
            )
    return found[:1]


def _beyond_mm(part: Part, extension: Extension, cut: Cut) -> float:
    """From the middle of the pin to the end of the lengthened part, along the grain. [mm]"""
    assert isinstance(cut.tool, Hole | Slot)
    along = cut.tool.frame.origin[0]
    if extension.end is End.END:
        return part.end_mm + extension.length_mm - along
    return along - (part.start_mm - extension.length_mm)
