"""The pictures of the forms that were drawn beforehand are what would be drawn now.

``SCANTLING_WRITE_DOCS=1`` draws them anew.
"""

from __future__ import annotations

import os

import pytest

from scantling.piece.forms import Form, forms
from scantling.store.content import Content
from scantling.web.designs.drawn_forms import drawn_form, folder, write_form
from scantling.web.kept.desk import desk_of

__all__: list[str] = []


@pytest.mark.parametrize("form", forms(), ids=lambda form: form.name)
def test_a_form_is_drawn_as_it_is(form: Form) -> None:
    """Its picture lies beside the page and is the one that its file gives."""
    from scantling.web.designs.shape_picture import shape_svg

    now = shape_svg(desk_of({}).session(Content(piece=form.text)).shape({}))
    if os.environ.get("SCANTLING_WRITE_DOCS") == "1":
        write_form(form, now)
    assert drawn_form(form) == now


def test_no_picture_is_of_a_form_that_is_not_there() -> None:
    """As many pictures as forms."""
    assert len(list(folder().glob("*.svg"))) == len(forms())
