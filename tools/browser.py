"""See to the two programs the tests use beside Python: Chromium, and pdftoppm to look at pages.

Where one is missing and this is Debian (or a relative) with the right to install, they are installed;
otherwise it is said which tests are left out and which command would bring them in. Exit status 1 only
when ``SCANTLING_BROWSER=required`` and one is still missing.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys

__all__ = ["PACKAGES", "missing_packages"]

PACKAGES = {"chromium": "chromium", "pdftoppm": "poppler-utils"}
"""Debian's package for each program."""


def missing_packages() -> list[str]:
    """Packages whose program is not on the PATH."""
    return [package for program, package in PACKAGES.items() if shutil.which(program) is None]


def _install(packages: list[str]) -> None:
    prefix = [] if os.geteuid() == 0 else ["sudo", "-n"]
    if shutil.which("apt-get") is None or (prefix and not _sudo_works()):
        return
    print(f"Installing {' and '.join(packages)} for the tests ...", flush=True)
    calm = [*prefix, "env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-q", "-y"]
    for step in (["update"], ["install", "--no-install-recommends", *packages]):
        subprocess.run([*calm, *step], check=False, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL)


def _sudo_works() -> bool:
    if shutil.which("sudo") is None:
        return False
    return subprocess.run(["sudo", "-n", "true"], check=False, capture_output=True).returncode == 0


def main() -> int:
    """Run as a command."""
    if missing_packages():
        _install(missing_packages())
    missing = missing_packages()
    if not missing:
        return 0
    names = " ".join(missing)
    print(
        f"Tests that need {names} are left out: not on this machine, and not to be installed from here. "
        f"To have them run: apt-get install --no-install-recommends {names}",
        file=sys.stderr,
    )
    return 1 if os.environ.get("SCANTLING_BROWSER") == "required" else 0


if __name__ == "__main__":
    sys.exit(main())
