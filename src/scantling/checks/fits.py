"""Panels in grooves, and drawers and doors in openings: F02, F03, F49, F51, F71."""

from __future__ import annotations

from collections.abc import Callable

from scantling.checks.catalogue import finding, limit
from scantling.checks.subject import Subject
from scantling.checks.travel_numbers import left_mm, travel_numbers
from scantling.errors import Finding, InputError
from scantling.joinery.opening_fit import OpeningFit, OpeningFitOptions, jams
from scantling.joinery.panel_groove import Held, PanelGroove, PanelGrooveOptions
from scantling.joinery.travel import width_coefficient
from scantling.joinery.work import Freedom, JointWork
from scantling.piece.convex import body_of
from scantling.piece.model import Direction, Part
from scantling.units.show import show_number
from scantling.wood.coefficients import coefficient_at
from scantling.wood.species import find_species

__all__ = ["FITS", "check"]

FITS = (PanelGroove.name, OpeningFit.name, "drawer_runner", "drawer_groove")
"""Families judged here and not as tenons or fasteners."""
_WORTH_SHARE = 0.85
"""Quarter-sawn wood is advised where it moves no more than so much of what the part does. [1]"""


def check(subject: Subject) -> list[Finding]:
    """Findings on every panel in its grooves and every part in its opening."""
    asked = {joint.name: joint.options for joint in subject.piece.joints}
    judges: dict[str, Callable[[Subject, JointWork, object], list[Finding]]] = {
        PanelGroove.name: _panel,
        OpeningFit.name: _opening,
    }
    found: list[Finding] = []
    for work in subject.works:
        judge = judges.get(work.family)
        if judge is not None:
            judged = judge(subject, work, asked.get(work.joint))
            found += [item for item in judged if not subject.told(work, item.code)]
    return found


def _panel(subject: Subject, work: JointWork, options: object) -> list[Finding]:
    found: list[Finding] = []
    for freedom in work.freedoms:
        if _is_bottom(subject, freedom, options):
            found += _bottom(subject, work, freedom)
        else:
            found += _trapped(work, freedom)
        found += _falls_out(work, freedom)
    return found


def _is_bottom(subject: Subject, freedom: Freedom, options: object) -> bool:
    """Whether a panel is a drawer's bottom: it lies level and is held at one edge."""
    if not isinstance(options, PanelGrooveOptions) or options.held in (Held.MIDDLE, Held.LOOSE):
        return False
    return abs(subject.part(freedom.part).frame.thickness[2]) > 0.7


def _trapped(work: JointWork, freedom: Freedom) -> list[Finding]:
    spare = freedom.swell_room_mm - freedom.swell_travel_mm
    wanted = limit("F02", "spare_mm")
    if spare >= wanted - 1e-6:
        return []
    return [
        finding(
            "F02",
            where=work.joint,
            message=f"{freedom.what}: {freedom.part} swells {freedom.swell_travel_mm:.1f} mm there, and "
            f"there is room for {freedom.swell_room_mm:.1f} mm behind it in {work.second}",
            numbers={**travel_numbers(freedom), "shortfall_mm": wanted - spare},
        )
    ]


def _bottom(subject: Subject, work: JointWork, freedom: Freedom) -> list[Finding]:
    """A drawer's bottom at the edge that moves: its swelling, and a share of its width at the least."""
    least = limit("F51", "room_share") * subject.part(freedom.part).width_mm
    wanted = max(least, freedom.swell_travel_mm)
    if freedom.swell_room_mm >= wanted - 1e-6:
        return []
    return [
        finding(
            "F51",
            where=work.joint,
            message=f"{freedom.what}: {freedom.part} has {freedom.swell_room_mm:.1f} mm to grow there, "
            f"it should have {wanted:.1f} mm",
            numbers={
                **travel_numbers(freedom),
                "wanted_mm": wanted,
                "shortfall_mm": wanted - freedom.swell_room_mm,
            },
        )
    ]


def _falls_out(work: JointWork, freedom: Freedom) -> list[Finding]:
    held = freedom.shrink_room_mm - freedom.shrink_travel_mm
    kept = limit("F03", "engagement_mm")
    if held >= kept - 1e-6:
        return []
    return [
        finding(
            "F03",
            where=work.joint,
            message=f"{freedom.what}: {freedom.part} shrinks {freedom.shrink_travel_mm:.1f} mm out of it, "
            f"{left_mm(held)} of its tongue stay in; at least {kept:.1f} mm",
            numbers={**travel_numbers(freedom), "held_mm": held, "shortfall_mm": kept - held},
        )
    ]


def _opening(subject: Subject, work: JointWork, options: object) -> list[Finding]:
    found: list[Finding] = []
    if not isinstance(options, OpeningFitOptions):
        return found
    for freedom in work.freedoms:
        found += _binds(subject, work, freedom, least_mm=options.least)
        found += _gapes(work, freedom)
    found += _jams(subject, work, options)
    return found


def _binds(subject: Subject, work: JointWork, freedom: Freedom, *, least_mm: float) -> list[Finding]:
    shortfall = freedom.swell_travel_mm + least_mm - freedom.swell_room_mm
    if shortfall <= 1e-6:
        return []
    wanted = freedom.cut_to_mm + shortfall
    return [
        finding(
            "F49",
            where=work.joint,
            message=f"{freedom.part} grows {freedom.swell_travel_mm:.1f} mm into its gap to {work.second}, "
            f"built {freedom.cut_to_mm:.1f} mm wide; {wanted:.1f} mm leaves what is wanted in the dampest "
            "season",
            advice=f"Build the gap {wanted:.1f} mm wide{_stiller(subject.part(freedom.part))}.",
            numbers={**travel_numbers(freedom), "gap_mm": freedom.cut_to_mm, "gap_wanted_mm": wanted},
        )
    ]


def _stiller(part: Part) -> str:
    """What the same wood quarter-sawn would save; nothing where it would save little or is not known."""
    try:
        share = coefficient_at(find_species(part.species), 90.0) / width_coefficient(part)
    except (InputError, ZeroDivisionError):
        return ""
    if share > _WORTH_SHARE:
        return ""
    return f", or use quarter-sawn {part.species}, which moves {100.0 * share:.0f} % as much"


def _gapes(work: JointWork, freedom: Freedom) -> list[Finding]:
    if freedom.shrink_room_mm >= freedom.shrink_travel_mm - 1e-6:
        return []
    open_mm = freedom.cut_to_mm + freedom.shrink_travel_mm
    over = freedom.shrink_travel_mm - freedom.shrink_room_mm
    return [
        finding(
            "F71",
            where=work.joint,
            message=f"the gap of {freedom.part} to {work.second} opens to {open_mm:.1f} mm in the driest "
            f"season, {over:.1f} mm more than is to show",
            numbers={**travel_numbers(freedom), "open_mm": open_mm, "shortfall_mm": over},
        )
    ]


def _jams(subject: Subject, work: JointWork, options: OpeningFitOptions) -> list[Finding]:
    """A drawer that is too wide for the length it is guided over."""
    if options.guided is None or options.drawer_width is None:
        return []
    friction = limit("F49", "waxed" if options.waxed else "friction")
    if not jams(options.drawer_width, options.guided, friction=friction):
        return []
    wanted = options.drawer_width * friction
    return [
        finding(
            "F49",
            where=work.joint,
            message=f"{work.first} is guided over {options.guided:.0f} mm and "
            f"{options.drawer_width:.0f} mm wide: pulled at one side it jams; guided over {wanted:.0f} mm "
            "it does not",
            advice=_guide_advice(options, wanted, deep_mm=_deep_mm(subject, work.first)),
            numbers={
                "guided_mm": options.guided,
                "width_mm": options.drawer_width,
                "guided_wanted_mm": wanted,
            },
        )
    ]


def _deep_mm(subject: Subject, name: str) -> float | None:
    """How deep a drawer is, front to back: the part and those joined to it; None where nothing is."""
    fixed = {
        part
        for work in subject.works
        if not work.passes and name in (work.first, work.second)
        for part in (work.first, work.second)
    }
    if not fixed:
        return None
    spans = [body_of(subject.part(part)).extent(Direction.BACK.vector) for part in fixed]
    return max(high for _, high in spans) - min(low for low, _ in spans)


def _guide_advice(options: OpeningFitOptions, wanted_mm: float, *, deep_mm: float | None) -> str:
    """Wax where that is enough, and the stop that keeps more of the drawer in, where it is as deep."""
    assert options.drawer_width is not None
    assert options.guided is not None
    more = wanted_mm - options.guided
    stop = (
        f"Stop it {more:.0f} mm sooner, make case and drawers {more:.0f} mm deeper, or guide it at its middle"
    )
    if deep_mm is not None and deep_mm < wanted_mm:
        stop = f"It is {show_number(deep_mm)} mm deep, too little for any stop: guide it at its middle"
    waxed = options.drawer_width * limit("F49", "waxed")
    if options.waxed or waxed > options.guided + 1e-9:
        return f"{stop}."
    return f"Wax its runners and guides, and keep them waxed (it then wants {waxed:.0f} mm). {stop}."
