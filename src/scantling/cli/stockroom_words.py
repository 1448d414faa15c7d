"""The words of ``scantling stockroom``."""

from __future__ import annotations

import argparse
from collections.abc import Callable

__all__ = ["add_stockroom"]

_ABOUT = """\
The timber there is. What happens to it is kept: boards that come in, are used, sold or thrown away,
offcuts that are put back. A board is named by what is chalked on it, or by its number: '#17'.
"""


def add_stockroom(
    verbs: argparse._SubParsersAction[argparse.ArgumentParser],
    *,
    piece_options: Callable[[argparse.ArgumentParser], None],
    own_woods: Callable[[argparse.ArgumentParser], None],
) -> None:
    """Add the verb with its own verbs.

    Parameters
    ----------
    verbs
        The command's verbs.
    piece_options, own_woods
        Add the options of a piece, and of a maker's own woods.
    """
    top = verbs.add_parser("stockroom", help="the timber there is: take in, use, keep offcuts, labels")
    top.description = _ABOUT
    own = top.add_subparsers(dest="act", metavar="ACT", required=True)
    _coming(own, own_woods)
    _going(own)
    _telling(own, own_woods)
    cut = own.add_parser("cut", help="take out what a piece is cut from, and put its offcuts in")
    piece_options(cut)
    cut.add_argument("--yes", action="store_true", help="do it; without it, only what would be done is told")
    cut.set_defaults(rack="stockroom")


def _coming(
    own: argparse._SubParsersAction[argparse.ArgumentParser],
    own_woods: Callable[[argparse.ArgumentParser], None],
) -> None:
    add = own.add_parser("add", help="take boards in: a rack file, or one board on a line")
    add.add_argument("rack", metavar="RACK", nargs="?", help="boards (CSV or YAML)")
    add.add_argument(
        "--board", metavar="LINE", help="instead: NAME, [WOOD] THICKNESS, LENGTH, WIDTH[, PRICE]"
    )
    add.add_argument("--wood", metavar="NAME", default="", help="wood of a line that names none")
    add.add_argument(
        "--price-per",
        choices=("board", "board foot", "tallied board foot", "m3"),
        default="board",
        help="what the price of a line is for",
    )
    add.add_argument("--from", metavar="SELLER", dest="party", default="", help="whom they were bought from")
    own_woods(add)
    _dated(add)
    keep = own.add_parser("keep", help="put an offcut of a board that was used back in")
    keep.add_argument("board", metavar="BOARD", help="the board it came from")
    keep.add_argument("length", metavar="LENGTH", help="such as '900 mm'")
    keep.add_argument("width", metavar="WIDTH", help="such as '5 1/2 in'")
    keep.add_argument("--name", metavar="NAME", help="what is chalked on it; BOARD offcut if left out")
    _dated(keep)


def _going(own: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    use = own.add_parser("use", help="take boards out for a piece")
    use.add_argument("boards", metavar="BOARD", nargs="+", help="what is chalked on it, or its number '#17'")
    use.add_argument("--for", metavar="PIECE", dest="party", default="", help="the piece they are used for")
    use.add_argument(
        "--keep",
        metavar="SIZE",
        action="append",
        default=[],
        help="an offcut put back at once, such as '900 mm x 140 mm'; of one board; may be repeated",
    )
    _dated(use)
    sell = own.add_parser("sell", help="take boards out that were sold")
    sell.add_argument("boards", metavar="BOARD", nargs="+")
    sell.add_argument("--to", metavar="BUYER", dest="party", default="", help="whom they were sold to")
    sell.add_argument("--price", metavar="PRICE", type=float, help="what was paid for all of them")
    _dated(sell)
    throw = own.add_parser("throw", help="take boards out that were thrown away or burnt")
    throw.add_argument("boards", metavar="BOARD", nargs="+")
    _dated(throw)
    moisture = own.add_parser("moisture", help="what the meter read in a board")
    moisture.add_argument("board", metavar="BOARD")
    moisture.add_argument("moisture", metavar="MOISTURE", help="such as '8.5 %%'")
    _dated(moisture)


def _telling(
    own: argparse._SubParsersAction[argparse.ArgumentParser],
    own_woods: Callable[[argparse.ArgumentParser], None],
) -> None:
    listed = own.add_parser("list", help="the boards that are there, tallied")
    listed.add_argument(
        "--units", choices=("mm", "in", "both"), default="mm", help="show lengths in mm, inches or both"
    )
    listed.add_argument("--shop", metavar="FILE", help="shop profile (YAML), for its currency")
    listed.add_argument("--json", action="store_true", help="as JSON")
    own_woods(listed)
    history = own.add_parser("history", help="what was done, the last first")
    history.add_argument("board", metavar="BOARD", nargs="?", help="of one board, also one that is gone")
    history.add_argument("--json", action="store_true", help="as JSON")
    labels = own.add_parser("labels", help="write labels for the boards, at 1:1 (PDF)")
    labels.add_argument("boards", metavar="BOARD", nargs="*", help="all that are there if none is named")
    labels.add_argument("-o", "--output", metavar="FILE", required=True, help="PDF to write")
    labels.add_argument("--paper", choices=("a4", "letter"), default="a4", help="paper size")
    labels.add_argument(
        "--units", choices=("mm", "in", "both"), default="mm", help="show lengths in mm, inches or both"
    )
    labels.add_argument("--force", action="store_true", help="write over a file that is there")
    undo = own.add_parser("undo", help="take back the last that was done")
    undo.set_defaults(units="mm")
    rack = own.add_parser("as-rack", help="write the boards that are there as a rack file")
    rack.add_argument("-o", "--output", metavar="FILE", required=True, help="rack (CSV) to write")
    rack.add_argument("--force", action="store_true", help="write over a file that is there")


def _dated(verb: argparse.ArgumentParser) -> None:
    verb.add_argument(
        "--on", metavar="DAY", help="the day it happened, such as 2026-03-05; today if left out"
    )
    verb.add_argument("--note", metavar="WORDS", default="", help="kept with it")
