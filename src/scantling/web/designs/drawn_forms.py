"""Pictures of the forms as they were drawn beforehand, so that a first visit does not wait for them."""

from __future__ import annotations

import hashlib
from importlib.resources import files
from pathlib import Path

from scantling.piece.forms import Form

__all__ = ["drawn_form", "folder", "write_form"]

_LEAST = 12
"""Characters of the digest of a form that its picture is called after."""


def folder() -> Path:
    """Where the pictures are."""
    return Path(str(files("scantling.web") / "form_pictures"))


def drawn_form(form: Form) -> str | None:
    """The picture of a form, as SVG; None where the form is another than the one that was drawn."""
    path = _path(form)
    return path.read_text(encoding="utf-8") if path.is_file() else None


def write_form(form: Form, svg: str) -> None:
    """Keep a picture of a form in place of the one before."""
    for old in folder().glob(f"{form.name}.*.svg"):
        old.unlink()
    _path(form).write_text(svg, encoding="utf-8")


def _path(form: Form) -> Path:
    digest = hashlib.sha256(form.text.encode()).hexdigest()[:_LEAST]
    return folder() / f"{form.name}.{digest}.svg"
