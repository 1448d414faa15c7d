"""The user's own woods, from a file: a wood the tables lack, or better numbers for one they have."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from pydantic import Field, model_validator

from scantling.errors import InputError
from scantling.reading import Document, FileModel, read_on, validate
from scantling.wood.provenance import Confidence, HowKnown, Provenance
from scantling.wood.species import NUMBER_FIELDS, Species

__all__ = ["OwnSpeciesFile", "load_own_species", "own_species_from_document"]

Shrinkage = Annotated[float, Field(gt=0, lt=30)]
Coefficient = Annotated[float, Field(gt=0, lt=0.01)]
Gravity = Annotated[float, Field(gt=0.05, lt=1.4)]
Stress = Annotated[float, Field(gt=0, lt=500)]


class OwnSpecies(FileModel):
    """One wood of the user's own. Field names carry their units, as in the tables."""

    name: str = Field(min_length=1, max_length=80, description="The name shown.")
    other_names: tuple[str, ...] = Field(default=(), description="Other names it may be called by.")
    botanical: str = Field(default="", max_length=120, description="Botanical name.")
    hardwood: bool = Field(default=True, description="false for a softwood.")
    source: str = Field(min_length=3, max_length=300, description="Where the numbers come from.")
    radial_pct: Shrinkage | None = None
    tangential_pct: Shrinkage | None = None
    volumetric_pct: Shrinkage | None = None
    cr_per_pct: Coefficient | None = None
    ct_per_pct: Coefficient | None = None
    shrink_start_pct: Annotated[float, Field(ge=15, le=35)] | None = None
    specific_gravity_12: Gravity | None = None
    specific_gravity_green: Gravity | None = None
    moe_mpa: Annotated[float, Field(gt=500, lt=40_000)] | None = None
    mor_mpa: Stress | None = None
    shear_mpa: Stress | None = None
    compression_parallel_mpa: Stress | None = None
    compression_perp_mpa: Stress | None = None
    tension_perp_mpa: Stress | None = None
    side_hardness_n: Annotated[float, Field(gt=0, lt=40_000)] | None = None

    @model_validator(mode="after")
    def _can_move(self) -> OwnSpecies:
        if self.tangential_pct is None and self.ct_per_pct is None:
            raise InputError(
                code="movement_unknown",
                field="tangential_pct",
                value="neither",
                rule="must give tangential_pct or ct_per_pct",
                remedy="Measure a flat-sawn strip dry and damp, or take the figure of a similar wood.",
            )
        return self

    def species(self) -> Species:
        """The wood, every number marked as the user's own."""
        numbers = {
            field: value for field in NUMBER_FIELDS if (value := getattr(self, field, None)) is not None
        }
        own = Provenance(source=self.source, how=HowKnown.OWN, confidence=Confidence.MEDIUM)
        return Species(
            name=self.name,
            common_names=self.other_names,
            botanical=self.botanical,
            hardwood=self.hardwood,
            sources=dict.fromkeys(numbers, own),
            **numbers,
        )


class OwnSpeciesFile(FileModel):
    """A file of own woods."""

    woods: tuple[OwnSpecies, ...] = Field(max_length=500)


def own_species_from_document(document: Document) -> tuple[Species, ...]:
    """The woods of a document.

    Raises
    ------
    FileFaults
        Every fault at once.
    """
    return tuple(own.species() for own in validate(document, OwnSpeciesFile).woods)


def load_own_species(path: str | Path) -> tuple[Species, ...]:
    """Read a file of own woods, to be passed to :func:`scantling.wood.species.find_species`.

    Parameters
    ----------
    path
        A YAML file: ``woods``, a list with ``name``, ``source`` and numbers named as in
        :class:`~scantling.wood.species.Species`.

    Raises
    ------
    FileFaults
        Every fault of the file at once, each with its line.
    """
    return own_species_from_document(read_on(path))
