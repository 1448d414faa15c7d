"""The words of ``scantling pieces``."""

from __future__ import annotations

import argparse
from collections.abc import Callable

__all__ = ["add_pieces"]

_ABOUT = """\
The pieces that are kept, with every version there has been; 'scantling open' shows them in the browser.
A piece is named by what it is called, or by its number.
"""
_PIECE = "what it is called, or its number"


def add_pieces(
    verbs: argparse._SubParsersAction[argparse.ArgumentParser],
    *,
    piece_options: Callable[[argparse.ArgumentParser], None],
) -> None:
    """Add the verb with its own verbs.

    Parameters
    ----------
    verbs
        The command's verbs.
    piece_options
        Adds the options of a piece file.
    """
    top = verbs.add_parser("pieces", help="the pieces that are kept: list, keep, write, versions, undo")
    top.description = _ABOUT
    own = top.add_subparsers(dest="act", metavar="ACT", required=True)
    listed = own.add_parser("list", help="the pieces, last changed first")
    listed.add_argument("--put-away", action="store_true", help="those that are put away")
    listed.add_argument("--json", action="store_true", help="as JSON")
    keep = own.add_parser("keep", help="keep a piece file, with the shop, rack and room that go with it")
    piece_options(keep)
    keep.add_argument("--name", metavar="NAME", help="what it is called; its title if left out")
    keep.add_argument("--into", metavar="KEPT", help="keep it as the next version of this piece instead")
    keep.add_argument(
        "--parent", metavar="VERSION", type=int, help="the version it was made from; the last if left out"
    )
    keep.add_argument("--merge", action="store_true", help="keep both changes, if they do not touch")
    keep.add_argument("--why", metavar="WORDS", default="", help="what this version is for")
    write = own.add_parser("write", help="write a piece's files, as they were kept, into a folder")
    write.add_argument("kept", metavar="KEPT", help=_PIECE)
    write.add_argument("--version", metavar="VERSION", type=int, help="an older version")
    write.add_argument("-o", "--output", metavar="DIR", required=True, help="folder to write into")
    write.add_argument("--force", action="store_true", help="write over files that are there")
    versions = own.add_parser("versions", help="every version, the newest first")
    versions.add_argument("kept", metavar="KEPT", help=_PIECE)
    versions.add_argument("--json", action="store_true", help="as JSON")
    for act, words in (
        ("undo", "go back to the version before"),
        ("redo", "go forward again"),
        ("put-away", "take it off the list; nothing of it is lost"),
        ("take-out", "put it back on the list"),
    ):
        own.add_parser(act, help=words).add_argument("kept", metavar="KEPT", help=_PIECE)
    restore = own.add_parser("restore", help="bring an older version back, as a new one")
    restore.add_argument("kept", metavar="KEPT", help=_PIECE)
    restore.add_argument("version", metavar="VERSION", type=int, help="its number")
