"""Steps: everything that has to be done, each with its hours, what it waits for, and its cautions."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from scantling.joinery.work import JointWork, Mark, MarkKind
from scantling.piece.model import PartKind, Piece
from scantling.plan.finishing import Finishing
from scantling.plan.gluing import Gluing
from scantling.plan.hardware import HardwareLine, counted, fastenings
from scantling.plan.pace import rate
from scantling.shop.cautions import cautions_for
from scantling.shop.glueup import GlueUp, GlueUpKind
from scantling.shop.ledger import MillingLedger
from scantling.shop.saw import PartSawing
from scantling.shop.sawsetup import SawSetup

__all__ = ["Phase", "Step", "Work", "plan_steps"]

Phase = str
"""Part of the job: design, timber, milling, joints, gluing, surface, finish, delivery."""

ACCLIMATE_MIN = 7 * 1440
"""A week stickered in the shop before milling: 7 to 14 days (a PVA maker's guide). [min]"""
REST_MIN = 48 * 60
"""Rest between first and last milling: 1 to 7 days (common practice). [min]"""

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
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of the work.

    Parameters
    ----------
    title
        What is done; unique.
    hands_on_min, wait_min
        Work, and drying or rest after it. [min]
    needs
        Titles of the steps before it.
    parts
        Parts it is done to.
    details
        How, in order.
    cautions
        The usual ones; the machine's manual and the product's label come first.
    once
        Whether it happens only once and cannot be photographed again.
    clamps
        Clamps it keeps while it dries.
    """

    title: str
    phase: Phase
    hands_on_min: float
    wait_min: float = 0.0
    needs: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    details: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    once: bool = False
    clamps: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What the steps are made from."""

    piece: Piece
    works: tuple[JointWork, ...]
    ledgers: tuple[MillingLedger, ...]
    sawings: tuple[PartSawing, ...]
    setups: tuple[SawSetup, ...]
    hardware: tuple[HardwareLine, ...]
    gluing: Gluing
    finishing: Finishing
    buys_timber: bool


class _Steps:
    """Collects steps, and remembers which step a part last came out of."""

    def __init__(self) -> None:
        self.all: list[Step] = []
        self.last: dict[str, str] = {}
        self.glued: dict[str, str] = {}
        self.loose: tuple[str, ...] = ()
        """The step that makes tenons, pins and wedges, if there is one."""

    def add(self, step: Step) -> str:
        self.all.append(step)
        for part in step.parts:
            self.last[part] = step.title
        return step.title

    def before(self, parts: Iterable[str]) -> tuple[str, ...]:
        """The last step of each part, each named once."""
        return tuple(dict.fromkeys(self.last[part] for part in parts if part in self.last))


def plan_steps(work: Work) -> tuple[Step, ...]:
    """Every step of the job, in an order that can be done.

    Parameters
    ----------
    work
        The piece and what is known of its making.
    """
    steps = _Steps()
    _timber(work, steps)
    _milling(work, steps)
    _inner_glue(work, steps)
    _sawing(work, steps)
    _joints(work, steps)
    _shaping(work, steps)
    _loose(work, steps)
    _surface(work, steps)
    _assembly(work, steps)
    _finish(work, steps)
    _last(work, steps)
    return tuple(steps.all)


def _solid(work: Work) -> list[MillingLedger]:
    return [ledger for ledger in work.ledgers if work.piece.parts[ledger.part].kind is not PartKind.SHEET]


def _timber(work: Work, steps: _Steps) -> None:
    names = tuple(work.piece.parts)
    steps.add(
        Step(
            title="Agree the piece with the client and draw it",
            phase="design",
            hands_on_min=rate("design").minutes(),
            parts=names,
        )
    )
    fetch = "Choose the boards and bring them in"
    if work.buys_timber:
        steps.add(
            Step(
                title=fetch,
                phase="timber",
                hands_on_min=rate("fetch_timber").minutes(),
                needs=steps.before(names),
                parts=names,
            )
        )
    steps.add(
        Step(
            title="Stack the boards on stickers in the shop",
            phase="timber",
            hands_on_min=20.0,
            wait_min=ACCLIMATE_MIN if work.buys_timber else 0.0,
            needs=steps.before(names),
            parts=names,
            details=("Measure the moisture of each board at a fresh cut; two points apart is too much.",),
        )
    )


def _milling(work: Work, steps: _Steps) -> None:
    ledgers = _solid(work)
    parts = tuple(ledger.part for ledger in ledgers)
    pieces = sum(ledger.pieces for ledger in ledgers)
    meters = sum(ledger.rough.length_mm * ledger.pieces for ledger in ledgers) * 1e-3
    steps.add(
        Step(
            title="Cut the blanks out of the boards",
            phase="milling",
            hands_on_min=rate("rough_cut").minutes(count=pieces),
            needs=steps.before(parts),
            parts=parts,
            details=("Chalk every blank first; crosscut, then rip, in the order of the board sheets.",),
            cautions=cautions_for("crosscutting", "ripping"),
            once=True,
        )
    )
    steps.add(
        Step(
            title="Mill the blanks over size",
            phase="milling",
            hands_on_min=rate("mill_first").minutes(count=pieces, meters=meters),
            wait_min=REST_MIN,
            needs=steps.before(parts),
            parts=parts,
            details=("Flatten one face, plane the other, joint an edge; leave what the milling sheet says.",),
            cautions=cautions_for("jointing", "planing"),
        )
    )
    steps.add(
        Step(
            title="Mill the parts to size",
            phase="milling",
            hands_on_min=rate("mill_final").minutes(count=pieces, meters=meters),
            needs=steps.before(parts),
            parts=parts,
            details=("Take the same off both faces; glue panels and laminations on the same day.",),
            cautions=cautions_for("jointing", "planing"),
        )
    )


def _glue_step(stage: GlueUp, steps: _Steps, needs: tuple[str, ...], parts: tuple[str, ...]) -> None:
    """A glue-up in its clamps, and its cure after."""
    title = f"Glue up {stage.name}"
    steps.add(
        Step(
            title=title,
            phase="gluing",
            hands_on_min=rate("clean_glue").minutes() + stage.time.total_min,
            wait_min=stage.clamp_min,
            needs=needs,
            parts=parts,
            details=stage.prepare,
            cautions=stage.cautions,
            once=True,
            clamps=stage.clamps.count if stage.clamps else 0,
        )
    )
    cured = f"{stage.name} cured"
    rest = max(0.0, stage.cure_min - stage.clamp_min)
    steps.add(Step(title=cured, phase="gluing", hands_on_min=0.0, wait_min=rest, needs=(title,), parts=parts))
    steps.glued[stage.name] = cured


def _inner_glue(work: Work, steps: _Steps) -> None:
    for stage in work.gluing.inner:
        needs = (*steps.before((stage.part,)), *(steps.glued[name] for name in stage.after))
        _glue_step(stage, steps, tuple(dict.fromkeys(needs)), (stage.part,))
    glued = {stage.part for stage in work.gluing.inner}
    panels = [
        ledger
        for ledger in work.ledgers
        if ledger.part in glued and ledger.strips is not None and ledger.glued
    ]
    area = sum(p.glued.length_mm * p.glued.width_mm * 2e-6 for p in panels if p.glued)
    parts = tuple(p.part for p in panels)
    if parts:
        steps.add(
            Step(
                title="Flatten and trim the panels",
                phase="milling",
                hands_on_min=rate("flatten_panel").minutes(m2=area),
                needs=steps.before(parts),
                parts=parts,
                details=("Plane across, then along; trim to width with a seam nowhere near an edge.",),
                cautions=cautions_for("hand tools"),
            )
        )
    posts = tuple(ledger.part for ledger in work.ledgers if ledger.lamination is not None)
    if posts:
        steps.add(
            Step(
                title="Mill the laminations to size again",
                phase="milling",
                hands_on_min=rate("mill_final").minutes(count=len(posts)),
                needs=steps.before(posts),
                parts=posts,
                details=("Scrape off the glue first; joint one face and one edge, then plane.",),
                cautions=cautions_for("jointing", "planing"),
            )
        )


def _sawing(work: Work, steps: _Steps) -> None:
    for setup in work.setups:
        angled = setup.miter_deg > 0.05 or setup.bevel_deg > 0.05
        parts = tuple(dict.fromkeys(cut.part for cut in setup.cuts))
        minutes = rate("saw_setup" if angled else "saw_square_setup").minutes()
        minutes += rate("saw_cut").minutes(count=len(setup.cuts))
        steps.add(
            Step(
                title=f"Saw set-up {setup.number}",
                phase="joints",
                hands_on_min=minutes,
                needs=steps.before(parts),
                parts=parts,
                details=setup.steps,
                cautions=cautions_for("crosscutting"),
            )
        )


def _joints(work: Work, steps: _Steps) -> None:
    groups: dict[str, list[JointWork]] = {}
    for joint, done in zip(work.piece.joints, work.works, strict=True):
        groups.setdefault(joint.like, []).append(done)
    for like, members in groups.items():
        marks = [mark for member in members for mark in member.marks]
        parts = tuple(dict.fromkeys(mark.part for mark in marks))
        if not marks:
            continue
        steps.add(
            Step(
                title=f"Cut the joints: {like.replace('_', ' ')}",
                phase="joints",
                hands_on_min=_joint_minutes(marks),
                needs=steps.before(parts),
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


def _shaping(work: Work, steps: _Steps) -> None:
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
    rounds = tuple(name for name, part in work.piece.parts.items() if part.round is not None)
    if rounds:
        steps.add(
            Step(
                title="Make the round parts round",
                phase="joints",
                hands_on_min=rate("round").minutes(count=len(rounds)),
                needs=steps.before(rounds),
                parts=rounds,
                details=("Square, eight sides, sixteen, round; sight along it at every stage.",),
                cautions=cautions_for("hand tools"),
            )
        )


def _loose(work: Work, steps: _Steps) -> None:
    made = [line for line in work.hardware if line.made_here]
    if made:
        kinds = tuple(dict.fromkeys(f"{line.kind.value}s" for line in made))
        title = steps.add(
            Step(
                title=f"Make the {_listed(kinds)}",
                phase="joints",
                hands_on_min=rate("make_loose").minutes(count=sum(line.get for line in made)),
                needs=("Cut the blanks out of the boards",),
                details=tuple(counted(line.get, line.kind) for line in made),
                cautions=cautions_for("ripping"),
            )
        )
        steps.loose = (title,)


def _by_entry(joints: tuple[str, ...]) -> tuple[str, ...]:
    """Joints under the name of their entry, the way a maker goes round: ``clips: clips.1, clips.2``."""
    groups: dict[str, list[str]] = {}
    for joint in joints:
        groups.setdefault(joint.partition(".")[0], []).append(joint)
    return tuple(f"{entry.replace('_', ' ')}: {', '.join(own)}" for entry, own in groups.items())


def _listed(words: tuple[str, ...]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _surface(work: Work, steps: _Steps) -> None:
    parts = tuple(work.piece.parts)
    grits = ", ".join(str(step.grit) for step in work.finishing.sanding.steps)
    steps.add(
        Step(
            title="Prepare the surfaces",
            phase="surface",
            hands_on_min=work.finishing.sanding.minutes,
            needs=steps.before(parts),
            parts=parts,
            details=(
                f"Grits {grits}, the last by hand along the grain; break every edge.",
                "Leave glue faces as planed.",
            ),
            cautions=cautions_for("sanding"),
        )
    )


def _assembly(work: Work, steps: _Steps) -> None:
    wet = [stage for stage in work.gluing.assembly if stage.kind is not GlueUpKind.DRY]
    joints = sum(len(stage.joints) for stage in wet)
    parts = tuple(dict.fromkeys(part for stage in wet for part in _parts(stage)))
    if wet:
        steps.add(
            Step(
                title="Put everything together dry",
                phase="gluing",
                hands_on_min=rate("dry_fit").minutes(count=joints),
                needs=(*steps.before(parts), *steps.loose),
                parts=parts,
                details=("With every clamp, caul and wedge, by the clock; measure the diagonals.",),
                once=True,
            )
        )
    for stage in wet:
        needs = (*steps.before(_parts(stage)), *(steps.glued[n] for n in stage.after if n in steps.glued))
        _glue_step(stage, steps, tuple(dict.fromkeys(needs)), _parts(stage))


def _parts(stage: GlueUp) -> tuple[str, ...]:
    return tuple(name for body in stage.bodies for name in body)


def _finish(work: Work, steps: _Steps) -> None:
    parts = tuple(work.piece.parts)
    finishing = work.finishing
    area = finishing.areas.finished_m2
    count = len(finishing.drying.coats)
    cure = (finishing.drying.light_use_h - finishing.drying.recoat_h * max(count - 1, 0)) * 60.0
    for coat in finishing.drying.coats:
        rub = rate("denib").minutes(m2=area) if coat.number > 1 else 0.0
        last = coat.number == count
        steps.add(
            Step(
                title=f"Coat {coat.number} of {finishing.system}",
                phase="finish",
                hands_on_min=finishing.coat_min + rub,
                wait_min=cure if last else finishing.drying.recoat_h * 60.0,
                needs=steps.before(parts),
                parts=parts,
                details=("Both faces alike, or the wood cups.",) if coat.number == 1 else (),
                cautions=finishing.cautions,
                once=coat.number == 1,
            )
        )


def _last(work: Work, steps: _Steps) -> None:
    parts = tuple(work.piece.parts)
    dry = [stage for stage in work.gluing.assembly if stage.kind is GlueUpKind.DRY]
    pieces = fastenings(done for done in work.works if done.dry)
    if dry:
        steps.add(
            Step(
                title="Put on what goes without glue",
                phase="finish",
                hands_on_min=rate("fit_top").minutes(count=pieces),
                needs=steps.before(parts),
                parts=parts,
                details=tuple(line for stage in dry for line in _by_entry(stage.dry_joints or stage.joints)),
            )
        )
    once = sum(1 for step in steps.all if step.once)
    steps.add(
        Step(
            title="Sort the photographs and write the work up",
            phase="delivery",
            hands_on_min=rate("record").minutes(count=once),
            needs=steps.before(parts),
        )
    )
    steps.add(
        Step(
            title="Wrap, deliver and set up",
            phase="delivery",
            hands_on_min=rate("wrap_and_deliver").minutes(),
            needs=steps.before(parts),
            parts=parts,
            cautions=cautions_for("lifting"),
        )
    )
