"""See to what the tests use beside Python: Chromium, pdftoppm, a PostgreSQL server, the page's type checker.

Where one is missing and this is Debian (or a relative) with the right to install, they are installed;
otherwise it is said which tests are left out and which command would bring them in. Exit status 1 only
when ``SCANTLING_BROWSER=required`` and one is still missing. The type checker and the checker of
accessibility are packages of npm, at the versions that ``package.json`` names; they go into ``node_modules``.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

__all__ = ["PACKAGES", "install_page_checkers", "missing_packages"]

ROOT = Path(__file__).resolve().parent.parent

PACKAGES = {
    "chromium": "chromium",
    "pdftoppm": "poppler-utils",
    "pg_ctlcluster": "postgresql",
    "node": "nodejs",
    "npm": "npm",
}
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


def install_page_checkers(root: Path = ROOT) -> bool:
    """Bring in the packages of ``package.json``, unless they are there; return whether they are now."""
    wanted = hashlib.sha256((root / "package.json").read_bytes()).hexdigest()
    stamp = root / "node_modules" / ".wanted"
    if stamp.is_file() and stamp.read_text() == wanted:
        return True
    npm = shutil.which("npm")
    if npm is None:
        return False
    print("Installing the packages of package.json into node_modules ...", flush=True)
    asked = [npm, "install", "--no-package-lock", "--ignore-scripts", "--no-audit", "--no-fund", "--silent"]
    if subprocess.run(asked, cwd=root, check=False, stdin=subprocess.DEVNULL).returncode:
        return False
    stamp.write_text(wanted)
    return True


def main() -> int:
    """Run as a command."""
    if missing_packages():
        _install(missing_packages())
    missing = missing_packages()
    checkers = install_page_checkers()
    if not checkers:
        print("The page's types are not checked: npm could not bring in the checker.", file=sys.stderr)
    if not missing and checkers:
        return 0
    if not missing:
        return 1 if os.environ.get("SCANTLING_BROWSER") == "required" else 0
    names = " ".join(missing)
    print(
        f"Tests that need {names} are left out: not on this machine, and not to be installed from here. "
        f"To have them run: apt-get install --no-install-recommends {names}",
        file=sys.stderr,
    )
    return 1 if os.environ.get("SCANTLING_BROWSER") == "required" else 0


if __name__ == "__main__":
    sys.exit(main())
