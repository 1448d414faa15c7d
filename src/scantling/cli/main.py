"""``scantling``: one command, a few verbs."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from functools import partial

from scantling import __version__
from scantling.cli.pieces_words import add_pieces
from scantling.cli.stockroom_words import add_stockroom

__all__ = ["main", "parser"]

_WRITING = ("packet", "offer", "publish", "export", "demo", "new", "yard")
"""Verbs that write files."""
_EPILOG = """\
Ways in:
  scantling demo                       the whole job on a demo piece, in the browser
  scantling open                       your pieces, in the browser
  scantling new reading-table          copy a form to start from (scantling forms lists them)
  scantling plan piece.yaml            everything computed, as text or --json
  scantling packet piece.yaml -o a.pdf the papers to work from

Exit status: 0 done; 1 the design has serious findings (check); 2 something given is wrong.
"""


def parser() -> argparse.ArgumentParser:
    """The command's words and options."""
    top = argparse.ArgumentParser(
        prog="scantling",
        description="Plans the making of a one-off piece of solid-wood furniture, from a file "
        "that describes it.",
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    top.add_argument("--version", action="version", version=f"scantling {__version__}")
    verbs = top.add_subparsers(dest="verb", metavar="VERB", required=True)
    _plan_verbs(verbs)
    _paper_verbs(verbs)
    _boards_verbs(verbs)
    add_pieces(verbs, piece_options=partial(_piece_options, shows_lengths=False))
    add_stockroom(verbs, piece_options=_piece_options, own_woods=_own_woods)
    _small_verbs(verbs)
    return top


def _piece_options(
    verb: argparse.ArgumentParser, *, shows_lengths: bool = True, several: bool = False
) -> None:
    told = "piece file (YAML), or the name of a shipped form"
    if several:
        verb.add_argument("piece", metavar="PIECE", nargs="+", help=f"{told}; several make one run")
    else:
        verb.add_argument("piece", metavar="PIECE", help=told)
    verb.add_argument(
        "--shop", metavar="FILE", help="shop profile (YAML); a usual one-person shop if left out"
    )
    verb.add_argument(
        "--rack",
        metavar="FILE",
        help="boards at hand (CSV, YAML, or stockroom); left out, what to buy is planned",
    )
    verb.add_argument(
        "--room", metavar="ROOM", help="room file (YAML) or typical room; see 'scantling rooms'"
    )
    verb.add_argument(
        "--measured",
        metavar="FILE",
        help="what is measured and done already (YAML); else the notes beside the rack file are asked, or "
        "beside the piece where the rack is the stockroom",
    )
    _own_woods(verb)
    verb.add_argument(
        "--set",
        metavar="NAME=VALUE",
        action="append",
        default=[],
        dest="given",
        help="a parameter's value, such as --set width='28 3/4 in'; may be repeated",
    )
    if not shows_lengths:
        verb.set_defaults(units=None)
        return
    verb.add_argument(
        "--units",
        choices=("mm", "in", "both"),
        help="show lengths in mm or inches, whatever the file uses, or in both, the file's unit first",
    )
    verb.add_argument(
        "--fractions",
        type=int,
        choices=(16, 32, 64),
        help="smallest fraction of an inch sizes are shown to; 32 if the file says none",
    )


def _own_woods(verb: argparse.ArgumentParser) -> None:
    verb.add_argument(
        "--woods", metavar="FILE", help="your own woods (YAML), which come before the published ones"
    )


def _plan_verbs(verbs: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    plan = verbs.add_parser("plan", help="print the whole plan")
    _piece_options(plan)
    plan.add_argument(
        "--json", action="store_true", help="the complete plan as JSON (see 'scantling schema plan')"
    )
    plan.add_argument(
        "--sheet",
        metavar="ID",
        action="append",
        default=[],
        help="only this sheet: parts, boards, saw, seasons...",
    )
    check = verbs.add_parser(
        "check", help="say what is wrong with the design; exit 1 if something is serious"
    )
    _piece_options(check)
    check.add_argument("--json", action="store_true", help="findings as JSON")
    apart = verbs.add_parser(
        "apart", help="in which order it comes apart, and which parts meet with no joint; takes seconds"
    )
    _piece_options(apart)
    apart.add_argument("--json", action="store_true", help="as JSON")
    seasons = verbs.add_parser("seasons", help="how the piece lives through a year in its room")
    _piece_options(seasons)
    seasons.add_argument(
        "--when-to-build",
        action="store_true",
        help="which month to build in, and at which moisture of the wood",
    )
    seasons.add_argument("--json", action="store_true", help="as JSON")


def _paper_verbs(verbs: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    packet = verbs.add_parser("packet", help="write the papers to work from (PDF)")
    _piece_options(packet)
    packet.add_argument("-o", "--output", metavar="FILE", required=True, help="PDF to write")
    packet.add_argument("--paper", choices=("a4", "letter"), default="a4", help="paper size")
    packet.add_argument("--force", action="store_true", help="write over a file that is there")
    offer = verbs.add_parser("offer", help="write the offer for the client: what, how it lives, price (PDF)")
    _piece_options(offer)
    offer.add_argument("-o", "--output", metavar="FILE", required=True, help="PDF to write")
    offer.add_argument(
        "--client", metavar="NAME", default="", help="whom it is for; left out, a line to write on"
    )
    offer.add_argument("--price", metavar="SUM", help="what you ask; the plan's price if left out")
    offer.add_argument("--paper", choices=("a4", "letter"), default="a4", help="paper size")
    offer.add_argument("--force", action="store_true", help="write over a file that is there")
    publish = verbs.add_parser(
        "publish", help="write the plan for readers: one HTML file that needs no network"
    )
    _piece_options(publish)
    publish.add_argument("-o", "--output", metavar="FILE", required=True, help="HTML to write")
    publish.add_argument("--force", action="store_true", help="write over a file that is there")
    export = verbs.add_parser("export", help="write solids, tables and drawings for other programs")
    _piece_options(export, shows_lengths=False)
    export.add_argument(
        "--to",
        metavar="FORMAT",
        action="append",
        required=True,
        choices=("step", "glb", "csv", "xlsx", "dxf", "svg", "pdf", "sticks"),
        help="step, glb, csv, xlsx, dxf (worked faces, 1:1), svg, pdf (drawings), sticks (story sticks, 1:1)",
    )
    export.add_argument("-o", "--output", metavar="DIR", required=True, help="folder to write into")
    export.add_argument("--force", action="store_true", help="write over files that are there")
    serve = verbs.add_parser("serve", help="open the piece as a live page on this computer")
    _piece_options(serve)
    serve.add_argument("--port", type=int, default=0, help="port on this computer; 0 takes a free one")
    serve.add_argument("--no-browser", action="store_true", help="print the address only")
    pieces = verbs.add_parser("open", help="open your pieces in the browser: begin one, go on with one")
    pieces.add_argument("--port", type=int, default=0, help="port on this computer; 0 takes a free one")
    pieces.add_argument("--no-browser", action="store_true", help="print the address only")
    for verb in (serve, pieces):
        verb.add_argument(
            "--network",
            action="store_true",
            help="let phones on the shop's network in, with a key; else nobody",
        )
    demo = verbs.add_parser("demo", help="plan the demo piece, write its packet, open its page")
    demo.add_argument("--port", type=int, default=0, help="port on this computer; 0 takes a free one")
    demo.add_argument(
        "-o", "--output", metavar="FILE", default="reading-table-packet.pdf", help="packet to write"
    )
    demo.add_argument("--paper", choices=("a4", "letter"), default="a4", help="paper size")
    demo.add_argument("--no-browser", action="store_true", help="print the address only")
    demo.add_argument("--no-serve", action="store_true", help="plan and write the packet, open no page")


def _boards_verbs(verbs: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    yard = verbs.add_parser("yard", help="judge boards one a line as you turn them: take, swap, put back")
    yard.add_argument("piece", metavar="PIECE", help="piece file (YAML), or the name of a shipped form")
    yard.add_argument("--shop", metavar="FILE", help="shop profile (YAML)")
    yard.add_argument("--pile", metavar="FILE", help="boards taken already (CSV or YAML)")
    yard.add_argument(
        "--wood", metavar="NAME", help="wood of a line that names none; else the most asked for"
    )
    yard.add_argument(
        "--price-per",
        choices=("board", "board foot", "tallied board foot", "m3"),
        default="board foot",
        help="what a price is for",
    )
    yard.add_argument("-o", "--output", metavar="FILE", help="rack (CSV) to write the pile into")
    yard.add_argument("--force", action="store_true", help="write over a file that is there")
    _own_woods(yard)
    yard.set_defaults(rack=None, room=None, given=[], units=None)
    boards = verbs.add_parser("boards", help="lay the boards out for longer; Ctrl-C keeps the best so far")
    _piece_options(boards, several=True)
    boards.add_argument("--seconds", type=float, default=60.0, help="how long to search; 60 if left out")
    boards.add_argument(
        "--times",
        metavar="NUMBER",
        type=int,
        action="append",
        default=[],
        help="how many are made: once for all pieces, or once for each in their order",
    )
    boards.add_argument(
        "--workers",
        metavar="NUMBER",
        type=int,
        help="processes that search; one a core, at most 2, if left out",
    )
    boards.add_argument(
        "--cluster", metavar="ADDRESS", help="scheduler of a Dask cluster to search on (extra 'cluster')"
    )
    rack = verbs.add_parser("rack", help="tally a rack: board feet, price, what is wrong with each board")
    rack.add_argument("rack", metavar="RACK", help="boards at hand (CSV or YAML)")
    rack.add_argument(
        "--units", choices=("mm", "in", "both"), default="mm", help="show lengths in mm, inches or both"
    )
    rack.add_argument("--shop", metavar="FILE", help="shop profile (YAML), for its currency")
    _own_woods(rack)
    rack.add_argument("--json", action="store_true", help="as JSON")


def _moisture_verbs(verbs: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    emc = verbs.add_parser("emc", help="moisture content wood settles at in air")
    emc.add_argument("temperature", metavar="TEMPERATURE", help="such as '20 C' or '68 F'")
    emc.add_argument("humidity", metavar="HUMIDITY", nargs="?", help="relative humidity, such as '45 %%'")
    emc.add_argument(
        "--moisture", metavar="MOISTURE", help="instead: the humidity that holds wood there, such as '8 %%'"
    )
    emc.add_argument("--json", action="store_true", help="as JSON")
    move = verbs.add_parser("move", help="how far a width of wood moves between two moistures")
    move.add_argument("wood", metavar="WOOD", help="name of the wood")
    move.add_argument("width", metavar="WIDTH", help="such as '34 in' or '860 mm'")
    move.add_argument("start", metavar="FROM", help="moisture content, such as '8 %%'")
    move.add_argument("end", metavar="TO", help="moisture content, such as '11 %%'")
    move.add_argument(
        "--rings",
        metavar="RINGS",
        default="flat",
        help="flat, rift, quarter, or the angle between face and rings, such as 30",
    )
    move.add_argument("--json", action="store_true", help="as JSON")
    _own_woods(move)


def _small_verbs(verbs: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    forms = verbs.add_parser("forms", help="list the forms that come with the program")
    forms.add_argument("--json", action="store_true", help="as JSON")
    new = verbs.add_parser("new", help="copy a form to start your own piece from")
    new.add_argument("form", metavar="FORM", help="name of a form; see 'scantling forms'")
    new.add_argument("-o", "--output", metavar="FILE", help="file to write; FORM.yaml if left out")
    rooms = verbs.add_parser("rooms", help="list the typical rooms that come with the program")
    rooms.add_argument("room", metavar="ROOM", nargs="?", help="show one: its name, a town or a room file")
    rooms.add_argument("--towns", action="store_true", help="list the towns whose heated houses are known")
    rooms.add_argument("--units", choices=("mm", "in"), default="mm", help="in: temperatures in °F")
    rooms.add_argument("--json", action="store_true", help="as JSON")
    wood = verbs.add_parser("wood", help="what is published of a wood")
    wood.add_argument(
        "name", metavar="NAME", nargs="?", help="common or botanical name; all are listed if left out"
    )
    _own_woods(wood)
    wood.add_argument("--list", action="store_true", help="list the woods there are")
    wood.add_argument("--json", action="store_true", help="as JSON")
    _moisture_verbs(verbs)
    schema = verbs.add_parser("schema", help="print a JSON Schema, for editors and programs")
    schema.add_argument("what", choices=("piece", "plan"), help="of piece files, or of the plan's JSON")


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command.

    Parameters
    ----------
    argv
        Its words; those of the process if left out.

    Returns
    -------
    int
        0 done; 1 the design is refused by ``check``; 2 something given is wrong; 70 a defect of the program;
        130 interrupted.
    """
    # the systems solved here are small: threads for them only wait for each other where others work too
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    words = sys.argv[1:] if argv is None else argv
    if not words:
        parser().print_help(sys.stderr)
        return 2
    options = parser().parse_args(words)
    try:
        return _run(options)
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0


def _run(options: argparse.Namespace) -> int:
    from scantling.cli.told_here import told_here
    from scantling.errors import FileFaults, InputError

    try:
        from scantling.cli.commands import run

        return run(options)
    except FileFaults as error:
        for fault in error.faults:
            print(told_here(fault), file=sys.stderr)
        count = len(error.faults)
        written = "; nothing was written" if options.verb in _WRITING else ""
        print(f"scantling: {count} fault{'s' if count != 1 else ''}{written}.", file=sys.stderr)
        return 2
    except InputError as error:
        print(f"scantling: {told_here(error.fault)}", file=sys.stderr)
        return 2
    except BrokenPipeError:
        raise
    except OSError as error:
        print(f"scantling: {error.strerror or error}: {error.filename or ''}", file=sys.stderr)
        return 2
    except Exception as error:
        if os.environ.get("SCANTLING_TRACE"):
            raise
        print(
            f"scantling: a defect of the program, not of your file: {type(error).__name__}: {error}\n"
            "Please report it with your file; SCANTLING_TRACE=1 shows where.",
            file=sys.stderr,
        )
        return 70


if __name__ == "__main__":
    sys.exit(main())
