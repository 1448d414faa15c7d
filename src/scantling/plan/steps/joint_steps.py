"""Steps of sawing to length, cutting joints, shaping, and making what is loose."""

from __future__ import annotations

from scantling.joinery.work import JointWork, Mark, MarkKind
from scantling.plan.making.pace import rate
from scantling.plan.steps.shape_steps import shape_step
from scantling.plan.steps.step import Step, Steps, Work
from scantling.shop.operations.cautions import cautions_at, cautions_for

__all__ = [
    "CUT",
    "FIT",
    "fitting_steps",
    "joint_steps",
    "listed",
    "loose_steps",
    "rounding_steps",
    "sawing_steps",
    "shaping_steps",
]

CUT = "Cut the joints"
FIT = "Fit in its opening"
"""How the titles of steps begin that cut a joint, and that fit what moves once its opening is glued."""

_MARK_RATE = {
    MarkKind.MORTISE: "mortise",
    MarkKind.HOLE: "hole",
    MarkKind.SLOT: "slot",
    MarkKind.GROOVE: "groove",
    MarkKind.NOTCH: "notch",
    MarkKind.HOUSING: "housing",
    MarkKind.TENON: "tenon",
    MarkKind.TONGUE: "tenon",
    MarkKind.EDGE: "groove",
    MarkKind.TAIL: "tail",
    MarkKind.SOCKET: "socket",
    MarkKind.RABBET: "groove",
    MarkKind.RECESS: "recess",
}
_MARK_CAUTION = {
    MarkKind.MORTISE: "routing",
    MarkKind.HOLE: "drilling",
    MarkKind.SLOT: "drilling",
    MarkKind.GROOVE: "ripping",
    MarkKind.NOTCH: "crosscutting",
    MarkKind.HOUSING: "routing",
    MarkKind.TENON: "hand tools",
    MarkKind.TONGUE: "hand tools",
    MarkKind.EDGE: "hand tools",
    MarkKind.TAIL: "hand tools",
    MarkKind.SOCKET: "hand tools",
    MarkKind.RABBET: "routing",
    MarkKind.RECESS: "hand tools",
}


def sawing_steps(work: Work, steps: Steps) -> None:
    """Each set-up of the saw, in the order of the saw's sheet wherever its parts are milled by then."""
    milled = dict(steps.last)
    sawn: dict[frozenset[str], str] = {}  # the last set-up so far, by what its parts wait for
    for setup in work.setups:
        angled = setup.miter_deg > 0.05 or setup.bevel_deg > 0.05
        parts = tuple(dict.fromkeys(cut.part for cut in setup.cuts))
        minutes = rate("saw_setup" if angled else "saw_square_setup").minutes()
        minutes += rate("saw_cut").minutes(count=len(setup.cuts))
        waits = frozenset(milled[part] for part in parts)
        known = steps.ancestors(waits)
        title = steps.add(
            Step(
                title=setup.title,
                phase="joints",
                hands_on_min=minutes,
                needs=steps.before(parts),
                parts=parts,
                details=setup.steps,
                cautions=cautions_at((setup.machine,), "crosscutting"),
                prefers=tuple(last for others, last in sawn.items() if others <= known),
            )
        )
        sawn[waits] = title


def rounding_steps(work: Work, steps: Steps) -> None:
    """Round parts: square while their ends are sawn, round when they are bored in a cradle."""
    rounds = tuple(name for name, part in work.piece.parts.items() if part.round is not None)
    if not rounds:
        return
    steps.add(
        Step(
            title="Make the round parts round",
            phase="joints",
            hands_on_min=rate("round").minutes(count=len(rounds)),
            needs=steps.before(rounds),
            parts=rounds,
            details=(
                "First carry the center lines and the marks of the joints round to both ends.",
                "Square, eight sides, sixteen, round; sight along it at every stage.",
            ),
            cautions=cautions_for("hand tools"),
        )
    )


def joint_steps(work: Work, steps: Steps) -> None:
    """Each kind of joint, its marking out among it."""
    groups: dict[str, list[JointWork]] = {}
    set_up: dict[str, str] = {}  # the last step so far, by the cutter it sets
    for joint, done in zip(work.piece.joints, work.works, strict=True):
        if not done.late_steps and not _is_fitted(done):
            groups.setdefault(joint.like, []).append(done)
    for like, members in groups.items():
        marks = [mark for member in members for mark in member.marks]
        parts = tuple(dict.fromkeys(mark.part for mark in marks))
        if not marks:
            continue
        cutters = tuple(dict.fromkeys(mark.setup for mark in marks))
        title = steps.add(
            Step(
                title=f"{CUT}: {like.replace('_', ' ')}",
                phase="joints",
                hands_on_min=_joint_minutes(marks),
                needs=steps.before(parts),
                parts=parts,
                details=tuple(dict.fromkeys(line for member in members for line in member.steps)),
                cautions=cautions_for(*dict.fromkeys(_MARK_CAUTION[mark.kind] for mark in marks)),
                once=True,
                prefers=tuple(dict.fromkeys(set_up[cutter] for cutter in cutters if cutter in set_up)),
            )
        )
        set_up |= dict.fromkeys(cutters, title)


def _is_fitted(done: JointWork) -> bool:
    """Whether what moves in use is planed to its opening, which is there once both are glued."""
    return done.passes and bool(done.marks) and all(mark.kind is MarkKind.EDGE for mark in done.marks)


def fitting_steps(work: Work, steps: Steps) -> None:
    """Drawers, doors and lids planed to their gaps, when they and their openings are glued up."""
    groups: dict[str, list[JointWork]] = {}
    for joint, done in zip(work.piece.joints, work.works, strict=True):
        if _is_fitted(done):
            groups.setdefault(joint.like, []).append(done)
    for like, members in groups.items():
        marks = [mark for member in members for mark in member.marks]
        parts = tuple(dict.fromkeys(name for one in members for name in (one.first, one.second)))
        steps.add(
            Step(
                title=f"{FIT}: {like.replace('_', ' ')}",
                phase="joints",
                hands_on_min=_joint_minutes(marks),
                needs=steps.before(work.piece.parts),
                parts=parts,
                details=tuple(dict.fromkeys(line for member in members for line in member.steps)),
                cautions=cautions_for(*dict.fromkeys(_MARK_CAUTION[mark.kind] for mark in marks)),
                once=True,
            )
        )


def _joint_minutes(marks: list[Mark]) -> float:
    setups = {mark.setup for mark in marks}
    minutes = rate("machine_setup").minutes(count=len(setups)) + rate("mark_out").minutes(count=len(marks))
    return minutes + sum(rate(_MARK_RATE[mark.kind]).minutes() for mark in marks)


def shaping_steps(work: Work, steps: Steps) -> None:
    """Tapers and edges."""
    tapered = [sawing for sawing in work.sawings if sawing.tapers]
    if tapered:
        parts = tuple(sawing.part for sawing in tapered)
        steps.add(
            Step(
                title="Taper the legs",
                phase="joints",
                hands_on_min=rate("taper").minutes(count=sum(len(s.tapers) for s in tapered)),
                needs=steps.before(parts),
                parts=parts,
                details=("After the joints are cut, while the sides are still square to each other.",),
                cautions=cautions_for("ripping", "hand tools"),
            )
        )
    shape_step(work, steps)


def loose_steps(work: Work, steps: Steps) -> None:
    """Tenons, pins and wedges that are made here."""
    made = [line for line in work.hardware if line.made_here]
    if made:
        kinds = tuple(dict.fromkeys(f"{line.kind.value}s" for line in made))
        title = steps.add(
            Step(
                title=f"Make the {listed(kinds)}",
                phase="joints",
                hands_on_min=rate("make_loose").minutes(count=sum(line.get for line in made)),
                needs=("Cut the blanks out of the boards",),
                details=work.loose,
                cautions=cautions_for("ripping", "short parts"),
            )
        )
        steps.loose = (title,)


def listed(words: tuple[str, ...]) -> str:
    """Words with commas, and an *and* before the last."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
