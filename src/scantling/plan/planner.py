"""One function: piece, shop, rack and room in, the plan out; what did not change is not worked out again."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from scantling.checks.offers import unjoined
from scantling.checks.run import run
from scantling.checks.subject import Chain, FaceCoats, Subject
from scantling.errors import Finding
from scantling.joinery.joining import OneJoint, join, join_one
from scantling.joinery.plowing import plowed
from scantling.joinery.work import JointContext, JointWork
from scantling.piece.model import JointRequest, PartKind, Piece
from scantling.plan.cache import Cache
from scantling.plan.findings import told_once
from scantling.plan.job import Job
from scantling.plan.made.built import built_findings
from scantling.plan.making.finishing import finish_or_default, plan_finishing
from scantling.plan.making.gluing import plan_gluing
from scantling.plan.making.hardware import hardware_of
from scantling.plan.making.loose import loose_lines
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
from scantling.plan.standing.moving import plan_moving, weigh_piece
from scantling.plan.standing.opened import anchors
from scantling.plan.standing.solidity import solidity_findings
from scantling.plan.standing.strength import plan_strength
from scantling.plan.steps.counts import counts_of
from scantling.plan.steps.glue_times import glue_time_findings
from scantling.plan.steps.order import plan_order
from scantling.plan.steps.step import Work
from scantling.plan.steps.steps import plan_steps
from scantling.plan.timber.drying import drying_of
from scantling.plan.timber.dryness import dryness_findings
from scantling.plan.timber.glued_up import glued_if_too_wide, widening_findings
from scantling.plan.timber.layers import cheapest_layers
from scantling.plan.timber.laying_out import Question
from scantling.plan.timber.sawn import as_sawn
from scantling.plan.timber.timber import Timber, named_in_full, plan_timber, question_of, with_shortfalls
from scantling.plan.year.season_parts import face_coats
from scantling.plan.year.seasons import Seasons, moisture_of, plan_seasons
from scantling.plan.year.settling import settled_strips
from scantling.plan.year.year_rooms import year_rooms
from scantling.shop.milling.capacity import cutter_findings, milling_findings, saw_findings
from scantling.shop.milling.ganging import with_gangs
from scantling.shop.milling.ledger import MillingLedger
from scantling.shop.milling.stock_findings import stock_findings
from scantling.shop.profile.profile import Shop
from scantling.shop.profile.yard import Nominal
from scantling.shop.sawing.kerf import plan_notches
from scantling.shop.sawing.sawsetup import saw_setups
from scantling.shop.sizes.size import FinishedSize
from scantling.solids.mesh import MeshCache, PartMesh, meshes_of
from scantling.solids.shape import PartShape, shapes_of
from scantling.stock.racks.rack import Rack
from scantling.stock.solving.solve import LayoutAnswer

__all__ = ["Planner", "make_plan"]

VERSION = 1


@dataclass(slots=True)
class Planner:
    """Makes plans and keeps what later ones can use again.

    Parameters
    ----------
    cache, meshes
        Answers and solids kept between plans.
    told
        Is told of every better layout of the boards; then an interrupt keeps the best so far.
    """

    cache: Cache = field(default_factory=Cache)
    meshes: MeshCache = field(default_factory=MeshCache)
    told: Callable[[LayoutAnswer], None] | None = None

    def works(self, job: Job) -> tuple[JointWork, ...]:
        """The work of every joint; a joint whose parts and options did not change keeps its own.

        Those of panels glued from unlike strips are laid out for the strips as they will be sawn.
        """
        return self._joined(self._settled(job))

    def laid_out(self, job: Job) -> tuple[Job, tuple[JointWork, ...]]:
        """The job with the strips of its mixed panels as they will be sawn, and the work of its joints."""
        settled = self._settled(job)
        return settled, self._joined(settled)

    def _joined(self, job: Job) -> tuple[JointWork, ...]:
        """The work of every joint, as the strips stand."""
        moisture = moisture_of(job.shop, job.room)
        works = join(job.piece, moisture=moisture, kerf_mm=job.shop.kerf_mm, one=self.one_joint())
        return plowed(works, job.piece.parts)

    def one_joint(self) -> OneJoint:
        """Does one joint of a piece, or has it at hand: the same parts with the same options."""

        def one(joint: JointRequest, context: JointContext) -> JointWork:
            first, second = (context.parts[place.part] for place in (joint.first, joint.second))
            asked = (joint, first, second, context.moisture, context.kerf_mm)
            return self.cache.answer("joint", asked, lambda: join_one(joint, context))

        return one

    def _settled(self, job: Job) -> Job:
        """The job with the strips of its mixed panels as they will be sawn."""
        return settled_strips(job, self._joined)

    def shapes(self, job: Job) -> dict[str, PartShape]:
        """Every part with its joints cut, for drawings and exports."""
        job = self._settled(job)
        return shapes_of(job.piece, self._joined(job))

    def solids(self, job: Job) -> dict[str, PartMesh]:
        """Meshes of every part."""
        return meshes_of(self.shapes(job), self.meshes)

    def plan(self, job: Job) -> Plan:
        """The plan; raises as :meth:`figures`."""
        return self.completed(self.figures(job), job)

    def completed(self, plan: Plan, job: Job) -> Plan:
        """The plan of a job with what :meth:`figures` left out: how sure an amount of timber is."""
        return replace(plan, timber=with_shortfalls(plan.timber, job, self.cache))

    def figures(self, job: Job) -> Plan:
        """The plan without what takes longest and nothing else depends on.

        Raises
        ------
        FileFaults
            Joints whose parts do not meet.
        InputError
            A wood, finish or air the computation cannot take.
        """
        job, works = self.laid_out(job)
        piece, shop, cache = job.piece, job.shop, self.cache
        meshes = meshes_of(shapes_of(piece, works), self.meshes)
        stock = self._stock(job, works)
        strips = {x.part: x.strips.widths_mm for x in stock.ledgers if x.strips is not None}
        seasons = plan_seasons(piece, works, shop=shop, room=job.room, cache=cache, strips_mm=strips)
        mass = weigh_piece(piece, meshes, mc_pct=_in_use(seasons.moisture.dry_pct, seasons.moisture.wet_pct))
        drying = drying_of(stock.timber.layout, seasons.moisture, shop, cache)
        work = self._work(job, works, meshes, stock, mass_kg=mass.total_kg)
        work = replace(work, drying=drying)
        order = plan_order(plan_steps(work), shop, cache)
        moving = plan_moving(piece, mass, shop=shop, cache=cache)
        subject = _subject(piece, works, job, ledgers=stock.ledgers, seasons=seasons)
        strength = plan_strength(subject, mass)
        others = [
            *solidity_findings(piece, meshes, cache, works=works),
            *moving.findings,
            *strength.findings,
            *dryness_findings(stock.timber.layout, seasons.moisture, shop, drying=drying),
            *_making_findings(work, stock, shop),
            *glue_time_findings(order, work.gluing.inner),
            *built_findings(piece, stock.ledgers),
        ]
        costed = Costed(timber=stock.timber, work=work, order=order, counts=counts_of(work))
        return Plan(
            version=VERSION,
            title=piece.title,
            about=piece.about,
            units=piece.units,
            fractions=piece.fractions,
            both_units=piece.both_units,
            shop=shop.name,
            room=job.room.name,
            parameters=piece.parameters,
            parts=planned_parts(piece, stock.finished, meshes, mass.by_part_kg),
            milling=stock.ledgers,
            sawing=work.sawings,
            setups=work.setups,
            notches=plan_notches(works, piece.parts, shop),
            joints=works,
            hardware=work.hardware,
            timber=stock.timber,
            drying=drying,
            seasons=seasons,
            year=year_rooms(piece.parts, works, seasons),
            gluing=work.gluing,
            finishing=work.finishing,
            order=order,
            pricing=plan_pricing(costed, shop),
            moving=moving,
            strength=strength,
            findings=told_once(run(subject, others=others).findings, piece).findings,
            built=piece.built,
            touching=unjoined(piece, works),
        )

    def _stock(self, job: Job, works: tuple[JointWork, ...]) -> _Stock:
        """Sizes, milling and boards; panels take the strips the boards gave them."""
        asked = self._asked(job, works)
        drawn, whole, finished, wanted = asked.drawn, asked.whole, asked.finished, asked.wanted
        offered, boards = asked.offered, None if asked.rack is None else asked.rack.boards
        timber = plan_timber(job, finished, wanted, cache=self.cache, told=self.told)
        sawn = as_sawn(finished, wanted, timber.layout, shop=job.shop)
        settled = as_laid_out(sawn, timber.layout, most_mm=job.shop.yard.strip_most_mm)
        ledgers = mill_parts(settled, job.shop, self.cache, offered=offered)
        ledgers = with_gangs(ledgers, timber.gangs, job.shop)
        widened = widening_findings(job, boards, drawn, ledgers, whole)
        timber = replace(timber, findings=(*timber.findings, *widened))
        return _Stock(finished=settled, ledgers=ledgers, timber=timber, offered=offered)

    def _asked(self, job: Job, works: tuple[JointWork, ...]) -> _Asked:
        """Sizes and milling before the boards have given the panels their strips."""
        drawn = finished_parts(job.piece, works)
        offered = offered_by(job.rack)
        rack = named_in_full(job.rack) if job.rack is not None and job.rack.boards else None
        boards = rack.boards if rack is not None else None
        whole = mill_parts(drawn, job.shop, self.cache, offered=offered)
        finished = glued_if_too_wide(job, boards, drawn, whole, works=works)
        if rack is not None:
            finished = cheapest_layers(job, rack, finished, offered=offered, cache=self.cache)
        wanted = mill_parts(finished, job.shop, self.cache, offered=offered)
        return _Asked(drawn=drawn, whole=whole, finished=finished, wanted=wanted, offered=offered, rack=rack)

    def question(self, job: Job) -> Question | None:
        """What is asked of the boards of the rack, as the notes beside it leave it; None without boards.

        Raises
        ------
        FileFaults, InputError
            As :meth:`plan`.
        """
        job = self._settled(job)
        asked = self._asked(job, self._joined(job))
        if asked.rack is None:
            return None
        return question_of(job, asked.rack, asked.finished, asked.wanted)

    def _work(
        self,
        job: Job,
        works: tuple[JointWork, ...],
        meshes: Mapping[str, PartMesh],
        stock: _Stock,
        *,
        mass_kg: float,
    ) -> Work:
        """How it is sawn, joined, glued and finished."""
        piece, shop = job.piece, job.shop
        sawings = saw_parts(piece, works, shop, self.cache)
        hardware = (*hardware_of(works), *anchors(piece, works))
        return Work(
            piece=piece,
            works=works,
            ledgers=stock.ledgers,
            sawings=sawings,
            setups=saw_setups(sawings, shop),
            hardware=hardware,
            gluing=plan_gluing(piece, works, stock.ledgers, shop, layout=stock.timber.layout),
            finishing=plan_finishing(piece, works, meshes, shop),
            buys_timber=bool(stock.timber.to_buy) or job.rack is None or not job.rack.boards,
            mass_kg=mass_kg,
            loose=loose_lines(hardware, shop),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """The parts as they are asked for: as drawn and as made, each with its milling."""

    drawn: tuple[FinishedSize, ...]
    whole: tuple[MillingLedger, ...]
    finished: tuple[FinishedSize, ...]
    wanted: tuple[MillingLedger, ...]
    offered: tuple[Nominal, ...] | None
    rack: Rack | None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stock:
    """The parts as they are made from boards."""

    finished: tuple[FinishedSize, ...]
    ledgers: tuple[MillingLedger, ...]
    timber: Timber
    offered: tuple[Nominal, ...] | None


def _making_findings(work: Work, stock: _Stock, shop: Shop) -> list[Finding]:
    """What the shop and its boards cannot do."""
    return [
        *stock.timber.findings,
        *work.gluing.findings,
        *stock_findings(stock.finished, stock.ledgers, shop, offered=stock.offered),
        *milling_findings(stock.ledgers, shop),
        *saw_findings(work.sawings),
        *cutter_findings(work.works, shop),
    ]


def _in_use(dry_pct: float, wet_pct: float) -> float:
    """Moisture a part has over the year, in the middle. [%]"""
    return (dry_pct + wet_pct) / 2.0


def _subject(
    piece: Piece,
    works: tuple[JointWork, ...],
    job: Job,
    *,
    ledgers: tuple[MillingLedger, ...],
    seasons: Seasons,
) -> Subject:
    """What the design rules read."""
    finish = finish_or_default(piece, job.shop)
    seams = {
        ledger.part: tuple(seam - ledger.finished.width_mm / 2.0 for seam in ledger.strips.seams_mm)
        for ledger in ledgers
        if ledger.strips is not None
    }
    cups = {season.part: season.largest_cup_mm for season in seasons.parts}
    coats = tuple(
        FaceCoats(
            part=part.name,
            one=float(face_coats(part, finish)[0]),
            other=float(face_coats(part, finish)[1]),
            cup_mm=abs(cups.get(part.name, 0.0)),
        )
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
