"""What a new part is made of where nothing is said of it."""

from __future__ import annotations

import pytest

from scantling.joinery import load_piece_text
from scantling.piece.adding import usual_wood
from scantling.piece.model import PartKind, Piece
from scantling.wood.sheets import all_sheets, find_sheet
from tests.piece.files import changed

__all__: list[str] = []

WOOD, SHEET = "species: red oak", f"species: {all_sheets()[-1].name}"


def stool(*, seat: str = WOOD, post: str = WOOD) -> Piece:
    """A small stool with its seat and posts of these."""
    text = changed()
    for name, kind, material in (("seat", "panel", seat), ("post", "stick", post)):
        before, after = text.split(f"  {name}:\n", 1)
        said = "sheet" if material is SHEET else kind
        after = after.replace(f"kind: {kind}", f"kind: {said}", 1).replace(WOOD, material, 1)
        text = f"{before}  {name}:\n{after}"
    if SHEET in (seat, post):
        text = text[: text.index("joints:")]
    return load_piece_text(text)


@pytest.mark.parametrize(("at", "wood"), [("post", "sugar maple"), ("seat", "red oak"), ("", "red oak")])
def test_it_is_of_the_wood_of_what_it_is_near(at: str, wood: str) -> None:
    """And near nothing, of the first part's."""
    assert usual_wood(stool(post="species: sugar maple"), at=at, kind=PartKind.STICK) == wood


def test_by_a_sheet_it_is_of_the_first_wood_and_by_wood_of_the_first_sheet() -> None:
    """A stick is of no sheet, and a sheet of no wood."""
    piece = stool(seat=SHEET, post="species: sugar maple")
    assert usual_wood(piece, at="seat", kind=PartKind.PANEL) == "sugar maple"
    assert usual_wood(piece, at="post", kind=PartKind.SHEET) == all_sheets()[-1].name


def test_where_there_is_none_like_it_it_is_of_a_common_one() -> None:
    """A sheet that shops have, and a wood."""
    assert find_sheet(usual_wood(stool(), at="seat", kind=PartKind.SHEET)) == all_sheets()[0]
    assert usual_wood(stool(seat=SHEET, post=SHEET), at="seat", kind=PartKind.STICK) == "red oak"
