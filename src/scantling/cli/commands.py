"""What each verb does. Every command imports what it needs when it runs."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable
from typing import Any

__all__ = ["run"]


def run(options: argparse.Namespace) -> int:
    """Do what the verb says, knowing the maker's own woods; returns the exit status."""
    if getattr(options, "woods", None) is None:
        return _COMMANDS[options.verb](options)
    from scantling.wood.own_species import load_own_species
    from scantling.wood.species import own_woods

    with own_woods(load_own_species(options.woods)):
        return _COMMANDS[options.verb](options)


def _plan(options: argparse.Namespace) -> int:
    from scantling.cli.job import job_of
    from scantling.cli.show import print_sheets
    from scantling.plan.planner import make_plan

    plan = make_plan(job_of(options))
    if options.json:
        from scantling.plan.document import plan_json

        print(plan_json(plan).decode())
        return 0
    from scantling.papers.sheets.all import sheets_of

    sheets = sheets_of(plan)
    if options.sheet:
        from scantling.cli.job import wanted_sheets

        sheets = wanted_sheets(sheets, options.sheet)
    print_sheets(sheets)
    return 0


def _check(options: argparse.Namespace) -> int:
    from scantling.cli.job import job_of
    from scantling.cli.show import print_sheets
    from scantling.plan.planner import make_plan

    plan = make_plan(job_of(options))
    if options.json:
        from dataclasses import asdict

        print(json.dumps([asdict(finding) for finding in plan.findings], indent=1))
    else:
        from scantling.papers.sheets.all import sheet_of
        from scantling.papers.sheets.business import findings_sheet

        print_sheets((sheet_of(plan, findings_sheet),))
    return 1 if plan.errors else 0


def _apart(options: argparse.Namespace) -> int:
    from scantling.cli.job import job_of
    from scantling.cli.show import print_sheets
    from scantling.plan.apart import plan_apart
    from scantling.plan.planner import Planner

    job = job_of(options)
    apart = plan_apart(job, Planner())
    if options.json:
        from dataclasses import asdict

        print(json.dumps(asdict(apart), indent=1))
        return 0
    from scantling.papers.sheets.apart import apart_sheet
    from scantling.units import LengthStyle

    print_sheets((apart_sheet(apart, inch=LengthStyle.of(job.piece.units).inch),))
    return 0


def _when_to_build(options: argparse.Namespace) -> int:
    from scantling.cli.job import job_of
    from scantling.cli.show import print_sheets
    from scantling.papers.words.joint_naming import words_of
    from scantling.plan.build_months import plan_build_months
    from scantling.plan.planner import Planner

    job, planner = job_of(options), Planner()
    found = plan_build_months(job, planner)
    if options.json:
        from scantling.plan.document import build_months_json

        print(build_months_json(found).decode())
        return 0
    from scantling.papers.sheets.other_years import build_sheet

    plan = planner.plan(job)
    with words_of(plan):
        sheet = build_sheet(found, plan)
    print_sheets((sheet,))
    return 0


def _seasons(options: argparse.Namespace) -> int:
    if options.when_to_build:
        return _when_to_build(options)
    from scantling.cli.job import job_of
    from scantling.cli.show import print_sheets
    from scantling.plan.planner import make_plan

    plan = make_plan(job_of(options))
    if options.json:
        from scantling.plan.document import seasons_json

        print(seasons_json(plan).decode())
        return 0
    from scantling.papers.sheets.all import sheet_of
    from scantling.papers.sheets.seasons import seasons_sheet

    print_sheets((sheet_of(plan, seasons_sheet),))
    return 0


def _packet(options: argparse.Namespace) -> int:
    from scantling.cli.job import job_of
    from scantling.cli.writing import refuse_output, write_bytes
    from scantling.papers.packet import Paper
    from scantling.papers.pages.packet_pdf import packet_pdf
    from scantling.plan.planner import Planner

    refuse_output(options.output, ending=".pdf", force=options.force)
    pdf = packet_pdf(
        job_of(options), Planner(), paper=Paper.LETTER if options.paper == "letter" else Paper.A4
    )
    write_bytes(options.output, pdf)
    print(f"{options.output}: {len(pdf) / 1024:.0f} kB")
    return 0


def _offer(options: argparse.Namespace) -> int:
    from scantling.cli.offer import offer

    return offer(options)


def _publish(options: argparse.Namespace) -> int:
    from scantling.cli.publish import publish

    return publish(options)


def _export(options: argparse.Namespace) -> int:
    from pathlib import Path

    from scantling.cli.job import job_of
    from scantling.papers.exports.piece import AtHand, ExportKind, export_piece
    from scantling.plan.planner import Planner

    job, planner = job_of(options), Planner()
    kinds = [ExportKind(name) for name in options.to]
    planned = any(kind.drawn or kind is ExportKind.XLSX for kind in kinds)
    written = export_piece(
        job.piece,
        planner.works(job),
        folder=Path(options.output),
        kinds=kinds,
        force=options.force,
        at_hand=AtHand(cache=planner.meshes, plan=planner.plan(job) if planned else None),
    )
    for path in written:
        print(path)
    return 0


def _serve(options: argparse.Namespace) -> int:
    import webbrowser
    from pathlib import Path

    from scantling.cli.job import faults_to_serve_with, given_values, piece_path
    from scantling.web.serving import serve

    given = given_values(options.given) | ({"units": options.units} if options.units else {})

    def path(name: str | None) -> Path | None:
        return None if name is None else Path(name)

    piece = piece_path(options.piece)
    told = faults_to_serve_with(
        piece,
        shop=options.shop,
        rack=options.rack,
        room=options.room,
        measured=options.measured,
        given=given_values(options.given),
    )
    for fault in told:
        print(fault, file=sys.stderr)
    if told:
        print("The page shows these until the file is mended.", file=sys.stderr)
    serve(
        piece,
        rack=path(options.rack),
        shop=path(options.shop),
        room=path(options.room),
        measured=path(options.measured),
        fractions=options.fractions,
        given=given,
        port=options.port or None,
        network=options.network,
        opened=(lambda _address: None) if options.no_browser else webbrowser.open,
    )
    return 0


def _open(options: argparse.Namespace) -> int:
    import webbrowser

    from scantling.web.serving import serve_kept

    opened = (lambda _address: None) if options.no_browser else webbrowser.open
    serve_kept(port=options.port or None, network=options.network, opened=opened)
    return 0


def _demo(options: argparse.Namespace) -> int:
    from scantling.cli.demo import demo

    return demo(options)


def _forms(options: argparse.Namespace) -> int:
    from scantling.piece.forms import forms

    listed = forms()
    if options.json:
        print(json.dumps([{"name": f.name, "title": f.title, "about": f.about} for f in listed], indent=1))
        return 0
    wide = max((len(form.name) for form in listed), default=0)
    for form in listed:
        print(f"{form.name:{wide}} {form.title}")
    return 0


def _new(options: argparse.Namespace) -> int:
    from scantling.cli.writing import refuse_output, write_bytes
    from scantling.piece.forms import find_form

    form = find_form(options.form)
    output = options.output or f"{form.name}.yaml"
    refuse_output(output, ending=".yaml", force=None)
    write_bytes(output, form.text.encode())
    print(f"{output}: edit it, then: scantling plan {output}")
    return 0


def _rooms(options: argparse.Namespace) -> int:
    from scantling.cli.small import room, rooms

    return room(options) if options.room else rooms(options)


def _rack(options: argparse.Namespace) -> int:
    from scantling.cli.timber import rack

    return rack(options)


def _pieces(options: argparse.Namespace) -> int:
    from scantling.cli.pieces import pieces

    return pieces(options)


def _stockroom(options: argparse.Namespace) -> int:
    from scantling.cli.stockroom import stockroom

    return stockroom(options)


def _yard(options: argparse.Namespace) -> int:
    from scantling.cli.yard import yard

    return yard(options)


def _boards(options: argparse.Namespace) -> int:
    from scantling.cli.timber import boards

    return boards(options)


def _wood(options: argparse.Namespace) -> int:
    from scantling.cli.small import wood, woods

    return woods(options) if options.list or not options.name else wood(options)


def _emc(options: argparse.Namespace) -> int:
    from scantling.cli.moisture import emc

    return emc(options)


def _move(options: argparse.Namespace) -> int:
    from scantling.cli.moisture import move

    return move(options)


def _schema(options: argparse.Namespace) -> int:
    schema: dict[str, Any]
    if options.what == "piece":
        from scantling.joinery import option_models
        from scantling.piece.files import piece_schema

        schema = piece_schema(option_models())
    else:
        from scantling.plan.document import plan_schema

        schema = plan_schema()
    print(json.dumps(schema, indent=1, sort_keys=False))
    return 0


_COMMANDS: dict[str, Callable[[argparse.Namespace], int]] = {
    "plan": _plan,
    "check": _check,
    "apart": _apart,
    "seasons": _seasons,
    "packet": _packet,
    "offer": _offer,
    "publish": _publish,
    "export": _export,
    "serve": _serve,
    "demo": _demo,
    "open": _open,
    "forms": _forms,
    "new": _new,
    "rooms": _rooms,
    "rack": _rack,
    "boards": _boards,
    "yard": _yard,
    "pieces": _pieces,
    "stockroom": _stockroom,
    "wood": _wood,
    "emc": _emc,
    "move": _move,
    "schema": _schema,
}
