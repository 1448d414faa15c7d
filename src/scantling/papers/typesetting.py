"""The typesetter: layout files and what they read become pages."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import resources
from typing import Any

__all__ = ["typeset"]


def typeset(files: Mapping[str, bytes]) -> bytes:
    """Set pages as PDF; the same files give the same bytes.

    Parameters
    ----------
    files
        By name: ``main.typ``, which is set, and all that it reads.

    Raises
    ------
    RuntimeError
        A font is missing from the installation.
    """
    import typst

    source: Any = dict(files)  # a folder of virtual files, which the typesetter's published types leave out
    with resources.as_file(resources.files("scantling.papers").joinpath("fonts")) as fonts:
        pdf, warnings = typst.compile_with_warnings(
            source,
            font_paths=[str(fonts)],
            ignore_system_fonts=True,
            timestamp=0,
            pdf_tags=False,
        )
    missing = [str(w) for w in warnings if "font" in str(w)]
    if missing:
        raise RuntimeError(
            f"papers.fonts: must be installed with the package, got {missing[0]}. Reinstall it."
        )
    return bytes(pdf)
