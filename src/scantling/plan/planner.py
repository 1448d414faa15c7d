"""One function: piece, shop, rack and room in, the plan out; what did not change is not worked out again."""

from __future__ import annotations

from dataclasses import dataclass, field

from scantling.checks.run import run
from scantling.checks.subject import Chain, FaceCoats, Subject
from scantling.errors import Finding
from scantling.joinery.joining import join, join_one
from scantling.joinery.work import JointContext, JointWork
from scantling.piece.model import JointRequest, PartKind, Piece
from scantling.plan.cache import Cache
from scantling.plan.counts import counts_of
from scantling.plan.findings import told_once
from scantling.plan.finishing import finish_or_default, plan_finishing
from scantling.plan.gluing import plan_gluing
from scantling.plan.hardware import hardware_of
from scantling.plan.job import Job
from scantling.plan.moving import plan_moving, weigh_piece
from scantling.plan.order import plan_order
from scantling.plan.parts import (
    as_laid_out,
    finished_parts,
    mill_parts,
    offered_by,
    planned_parts,
    saw_parts,
)
from scantling.plan.pricing import Costed, plan_pricing
from scantling.plan.result import Plan
from scantling.plan.seasons import moisture_of, plan_seasons
from scantling.plan.solidity import solidity_findings
from scantling.plan.steps import Work, plan_steps
from scantling.plan.strength import plan_strength
from scantling.plan.timber import plan_timber
from scantling.shop.capacity import cutter_findings, milling_findings, saw_findings
from scantling.shop.kerf import plan_notches
from scantling.shop.ledger import MillingLedger
from scantling.shop.sawsetup import saw_setups
from scantling.shop.stock_findings import stock_findings
from scantling.solids.mesh import MeshCache, PartMesh, meshes_of
from scantling.solids.shape import PartShape, shapes_of

__all__ = ["Planner", "make_plan"]

VERSION = 1


@dataclass(slots=True)
class Planner:
    """Makes plans and keeps what later ones can use again.

    Parameters
    ----------
    cache, meshes
        Answers and solids kept between plans.
    """

    cache: Cache = field(default_factory=Cache)
    meshes: MeshCache = field(default_factory=MeshCache)

    def works(self, job: Job) -> tuple[JointWork, ...]:
        """The work of every joint; a joint whose parts and options did not change keeps its own."""
        moisture = moisture_of(job.shop, job.room)

        def one(joint: JointRequest, context: JointContext) -> JointWork:
            first, second = context.parts[joint.first.part], context.parts[joint.second.part]
            content = (joint, first, second, context.moisture, context.kerf_mm)
            return self.cache.answer("joint", content, lambda: join_one(joint, context))

        return join(job.piece, moisture=moisture, kerf_mm=job.shop.kerf_mm, one=one)

    def shapes(self, job: Job) -> dict[str, PartShape]:
        """Every part with its joints cut, for drawings and exports."""
        return shapes_of(job.piece, self.works(job))

    def solids(self, job: Job) -> dict[str, PartMesh]:
        """Meshes of every part."""
        return meshes_of(self.shapes(job), self.meshes)

    def plan(self, job: Job) -> Plan:
        """The plan.

        Raises
        ------
        FileFaults
            Joints whose parts do not meet.
        InputError
            A wood, finish or air the computation cannot take.
        """
        piece, shop, cache = job.piece, job.shop, self.cache
        works = self.works(job)
        meshes = meshes_of(shapes_of(piece, works), self.meshes)
        seasons = plan_seasons(piece, works, shop=shop, room=job.room, cache=cache)
        mass = weigh_piece(piece, meshes, mc_pct=_in_use(seasons.moisture.dry_pct, seasons.moisture.wet_pct))
        finished = finished_parts(piece, works)
        offered = offered_by(job.rack)
        wanted = mill_parts(finished, shop, cache, offered=offered)
        timber = plan_timber(finished, wanted, shop=shop, rack=job.rack, cache=cache)
        finished = as_laid_out(finished, timber.layout)
        ledgers = mill_parts(finished, shop, cache, offered=offered)
        sawings = saw_parts(piece, works, shop, cache)
        setups = saw_setups(sawings)
        hardware = hardware_of(works)
        gluing = plan_gluing(piece, works, ledgers, shop)
        finishing = plan_finishing(piece, works, meshes, shop)
        work = Work(
            piece=piece,
            works=works,
            ledgers=ledgers,
            sawings=sawings,
            setups=setups,
            hardware=hardware,
            gluing=gluing,
            finishing=finishing,
            buys_timber=bool(timber.to_buy) or job.rack is None,
        )
        order = plan_order(plan_steps(work), shop, cache)
        moving = plan_moving(piece, mass, shop=shop, cache=cache)
        subject = _subject(piece, works, job, ledgers=ledgers)
        strength = plan_strength(subject, mass)
        others: list[Finding] = [
            *solidity_findings(piece, meshes, cache),
            *timber.findings,
            *gluing.findings,
            *moving.findings,
            *strength.findings,
            *stock_findings(finished, ledgers, shop, offered=offered),
            *milling_findings(ledgers, shop),
            *saw_findings(sawings),
            *cutter_findings(works, shop),
        ]
        found = cache.answer(
            "checks", (subject, others), lambda: told_once(run(subject, others=others).findings, piece)
        )
        masses = {part.part: part.mass_kg for part in mass.parts}
        return Plan(
            version=VERSION,
            title=piece.title,
            about=piece.about,
            units=piece.units,
            shop=shop.name,
            room=job.room.name,
            parameters=piece.parameters,
            parts=planned_parts(piece, finished, meshes, masses),
            milling=ledgers,
            sawing=sawings,
            setups=setups,
            notches=plan_notches(works, piece.parts, shop),
            joints=works,
            hardware=hardware,
            timber=timber,
            seasons=seasons,
            gluing=gluing,
            finishing=finishing,
            order=order,
            pricing=plan_pricing(
                Costed(
                    timber=timber,
                    hardware=hardware,
                    gluing=gluing,
                    finishing=finishing,
                    order=order,
                    counts=counts_of(work),
                ),
                shop,
            ),
            moving=moving,
            strength=strength,
            findings=found.findings,
        )


def _in_use(dry_pct: float, wet_pct: float) -> float:
    """Moisture a part has over the year, in the middle. [%]"""
    return (dry_pct + wet_pct) / 2.0


def _subject(
    piece: Piece, works: tuple[JointWork, ...], job: Job, *, ledgers: tuple[MillingLedger, ...]
) -> Subject:
    """What the design rules read."""
    finish = finish_or_default(piece, job.shop)
    seams = {
        ledger.part: tuple(seam - ledger.finished.width_mm / 2.0 for seam in ledger.strips.seams_mm)
        for ledger in ledgers
        if ledger.strips is not None
    }
    coats = tuple(
        FaceCoats(part=part.name, one=float(finish.coats), other=float(finish.hidden_coats))
        for part in piece.parts.values()
        if part.kind is PartKind.PANEL
    )
    return Subject(
        piece=piece,
        works=works,
        moisture=moisture_of(job.shop, job.room),
        coats=coats,
        seams_mm=seams,
        chains=_chains(piece, works),
    )


def _chains(piece: Piece, works: tuple[JointWork, ...]) -> tuple[Chain, ...]:
    """Sizes that must add up: a panel with its breadboard ends."""
    chains = []
    for work in works:
        if work.family != "breadboard_end":
            continue
        caps = [w.first for w in works if w.family == work.family and w.second == work.second]
        if work.first != caps[0]:
            continue
        panel = piece.parts[work.second]
        sizes = [(panel.name, panel.length_mm), *((cap, piece.parts[cap].width_mm) for cap in caps)]
        corners = [
            piece.parts[name].frame.point((u, v, 0.0))
            for name in (panel.name, *caps)
            for u, v in _ends(piece, name)
        ]
        grain = panel.frame.grain
        along = [sum(a * b for a, b in zip(corner, grain, strict=True)) for corner in corners]
        chains.append(
            Chain(
                name=f"length over {panel.name} and its ends",
                sizes_mm=tuple(sizes),
                overall_mm=max(along) - min(along),
            )
        )
    return tuple(chains)


def _ends(piece: Piece, name: str) -> list[tuple[float, float]]:
    part = piece.parts[name]
    half = part.width_mm / 2.0
    return [(part.start_mm, -half), (part.end_mm, half), (part.start_mm, half), (part.end_mm, -half)]


def make_plan(job: Job) -> Plan:
    """The plan of one job, with nothing kept for a later one."""
    return Planner().plan(job)
