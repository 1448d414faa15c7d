"""The documents by name: what each has of its own beside the frame that all of them share."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["LEAVES", "Leaf"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """One document: its title, what it is styled and wired with, and which place it is."""

    title: str
    """With the names of what it shows as ``{{names}}``."""
    place: str = ""
    """Key of the place it is (:data:`scantling.web.documents.places.PLACES`); empty for none."""
    look: str = "plain"
    """Classes of its body."""
    styles: tuple[str, ...] = ("pieces",)
    """Names of style files beyond those of the frame; ``print`` counts on paper only."""
    wiring: str = ""
    """Name of its module; empty where nothing of it moves."""
    early: tuple[str, ...] = ()
    """Addresses of modules it needs soon, fetched before anybody asks."""
    skip: tuple[str, str] | None = None
    """Where the first key leads and what it says, on a document that begins with something long."""
    units: bool = False
    """Whether lengths on it turn from millimeters to inches by the key in its head."""


LEAVES = {
    "pieces": Leaf(title="Pieces", place="pieces", wiring="pieces"),
    "stockroom": Leaf(
        title="Stockroom", place="stockroom", styles=("pieces", "stockroom"), wiring="stockroom"
    ),
    "shop": Leaf(title="Shop", place="shop", styles=("pieces", "folds", "profiles", "lined"), wiring="shop"),
    "rooms": Leaf(
        title="Rooms",
        place="rooms",
        styles=("pieces", "sheets", "folds", "profiles", "lined"),
        wiring="rooms",
    ),
    "index": Leaf(
        title="{{title}}",
        place="piece",
        look="",
        styles=(
            "plate",
            "glance",
            "sizes",
            "setting",
            "new-part",
            "sheets",
            "folds",
            "year",
            "lined",
            "typing",
            "print",
        ),
        wiring="main",
        early=(
            "/static/vendor/three/three.module.min.js",
            "/static/vendor/three/three.core.min.js",
        ),
        skip=("text", "Skip the picture"),
        units=True,
    ),
    "seasons": Leaf(
        title="Seasons: {{title}}",
        place="seasons",
        look="",
        styles=("plate", "sheets", "folds", "year", "seasons", "print"),
        wiring="seasons",
        early=("/static/vendor/three/three.module.min.js", "/static/vendor/three/three.core.min.js"),
        skip=("text", "Skip the picture"),
        units=True,
    ),
    "write": Leaf(
        title="Text: {{title}}",
        place="text",
        look="plain wide",
        styles=("pieces", "lined", "typing", "write"),
        wiring="write",
    ),
    "boards": Leaf(
        title="Boards: {{title}}",
        place="boards",
        look="plain boards",
        styles=("pieces", "folds", "boards"),
        wiring="boards",
        units=True,
    ),
    "yard": Leaf(title="At the yard: {{title}}", place="yard", look="yard", styles=("yard",), wiring="yard"),
    "bench": Leaf(
        title="Bench: {{title}}",
        place="bench",
        look="plain bench",
        styles=("plate", "pieces", "bench"),
        wiring="bench",
        units=True,
    ),
    "papers": Leaf(title="Papers: {{title}}", place="papers", styles=("pieces", "papers"), wiring="papers"),
    "phone": Leaf(title="On a phone"),
    "refusal": Leaf(title="{{said}}"),
}
"""Every document the server fills in, by the name of the file with its own part."""
