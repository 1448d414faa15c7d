"""Writing files for the user: whole or not at all, and never over one that is there unasked."""

from __future__ import annotations

from pathlib import Path

from scantling.errors import Fault, FileFaults, InputError

__all__ = ["refuse_if_there", "refuse_output", "write_bytes"]


def refuse_output(path: str | Path, *, ending: str, force: bool | None) -> None:
    """Refuse a file to write whose name, folder or place will not do, before anything is worked out.

    Parameters
    ----------
    path
        As given.
    ending
        What its name must end in (``.pdf``).
    force
        Whether it may be written over a file that is there; None where the command cannot be asked to.

    Raises
    ------
    FileFaults
        ``wrong_ending``, ``folder_missing``, ``file_is_there``, ``file_is_folder``, all that apply.
    """
    target, faults = Path(path), []
    if target.suffix.casefold() != ending:
        faults.append(
            Fault(
                code="wrong_ending",
                field="output",
                value=str(path),
                rule=f"must end in {ending}",
                remedy=f"Write {target.with_suffix(ending) if target.name else 'NAME' + ending}.",
            )
        )
    if not target.parent.is_dir():
        faults.append(
            Fault(
                code="folder_missing",
                field="output",
                value=str(path),
                rule=f"must be in a folder that is there; {target.parent} is not",
                remedy="Make the folder first, or name another.",
            )
        )
    try:
        refuse_if_there(target, force=force)
    except InputError as error:
        faults.append(error.fault)
    if faults:
        raise FileFaults(faults)


def refuse_if_there(path: str | Path, *, force: bool | None) -> None:
    """Refuse to write over a file, unless asked to; and over a folder in any case.

    Parameters
    ----------
    path
        As given.
    force
        Whether it may be written over; None where the command cannot be asked to.

    Raises
    ------
    InputError
        ``file_is_there``, ``file_is_folder``.
    """
    if Path(path).is_dir() and Path(path).name:
        raise InputError(
            code="file_is_folder",
            field="output",
            value=str(path),
            rule="must name a file; there is a folder of that name",
            remedy="Choose another name.",
        )
    if Path(path).exists() and not force:
        raise InputError(
            code="file_is_there",
            field="output",
            value=str(path),
            rule="must not be there yet",
            remedy="Choose another name." if force is None else "Choose another name, or say --force.",
        )


def write_bytes(path: str | Path, data: bytes) -> None:
    """Write a file that appears whole or not at all."""
    from scantling.papers.exports.whole_file import write_whole

    write_whole(Path(path), data)
