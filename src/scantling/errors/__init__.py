"""The exception tree, faults of bad input, and findings about a design.

::

    ScantlingError
    ├── InputError (ValueError)      one fault in what was given
    ├── FileFaults (ValueError)      every fault of a file at once
    └── ModelError (RuntimeError)    our own invariant broke; a defect of the program
"""

from scantling.errors.exceptions import FileFaults, InputError, ModelError, ScantlingError
from scantling.errors.faults import Fault
from scantling.errors.findings import Finding, Remedy, Report, Severity
from scantling.errors.telling import Telling

__all__ = [
    "Fault",
    "FileFaults",
    "Finding",
    "InputError",
    "ModelError",
    "Remedy",
    "Report",
    "ScantlingError",
    "Severity",
    "Telling",
]
