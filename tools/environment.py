"""Make the project's own environment in ``.venv``: the locked packages, then the project itself.

Needs nothing but the standard library, so that any Python 3.11 can run it::

    python3.11 tools/environment.py run     what a maker needs
    python3.11 tools/environment.py dev     that, and the tests' and linters' packages

What was installed last is remembered by the lock's digest, so a second run does nothing.
"""

from __future__ import annotations

import hashlib
import importlib.util
import subprocess
import sys
import venv
from pathlib import Path

__all__ = ["LOCKS", "NEEDED", "Trouble", "prepare"]

ROOT = Path(__file__).resolve().parent.parent
NEEDED = (3, 11)
LOCKS = {"run": "requirements.lock", "dev": "requirements-dev.lock"}
"""File of hashed requirements of each kind; the one for ``dev`` holds all of the one for ``run``."""


class Trouble(Exception):  # noqa: N818 - told to the user in one sentence, never as a traceback
    """The environment cannot be made; the message says why and what to do."""


def prepare(kind: str, *, root: Path = ROOT) -> bool:
    """Bring ``.venv`` up to date; return whether anything had to be installed."""
    python = _python_of(root / ".venv")
    wanted = ["dev"] if kind == "dev" else ["run", "dev"]
    installed = False
    if not any(_is_current(root, name, root / LOCKS[name]) for name in wanted):
        lock = root / LOCKS[kind]
        print(f"Installing the packages of {lock.name} into .venv (a minute or two) ...", flush=True)
        _install(python, "--require-hashes", "-r", str(lock))
        _remember(root, kind, lock)
        installed = True
    if not _is_current(root, "project", root / "pyproject.toml"):
        _install(python, "--no-deps", "--no-build-isolation", "--editable", str(root))
        _remember(root, "project", root / "pyproject.toml")
        installed = True
    return installed


def _python_of(folder: Path) -> Path:
    python = folder / "bin" / "python"
    if not _answers(python, "import sys; sys.exit(sys.version_info < (3, 11))"):
        print(f"Making the environment .venv with Python {sys.version.split()[0]} ...", flush=True)
        venv.EnvBuilder(with_pip=_has("ensurepip"), clear=True, symlinks=True).create(folder)
    return python


def _answers(python: Path, code: str) -> bool:
    if not python.exists():
        return False
    return subprocess.run([python, "-c", code], check=False, capture_output=True).returncode == 0


def _has(module: str) -> bool:
    return importlib.util.find_spec(module) is not None


def _pip_for(python: Path) -> list[str | Path]:
    """Command of the pip that installs into an environment: its own, or that of the Python running this."""
    if _answers(python, "import pip"):
        return [python, "-m", "pip"]
    if _answers(python, "import ensurepip; ensurepip.bootstrap()"):
        return [python, "-m", "pip"]
    if _has("pip"):
        return [sys.executable, "-m", "pip", "--python", python]
    short = f"{sys.version_info[0]}.{sys.version_info[1]}"
    raise Trouble(
        f"this Python {short} comes without pip and ensurepip, so it can install nothing. On Debian and "
        f"Ubuntu: apt-get install python{short}-venv. Elsewhere install Python {short} whole."
    )


def _install(python: Path, *arguments: str) -> None:
    calm = ["install", "-qq", "--disable-pip-version-check", "--no-input"]
    command = [*_pip_for(python), *calm, *arguments]
    if subprocess.run(command, check=False, stdin=subprocess.DEVNULL).returncode:
        raise Trouble(
            "pip could not install the packages; its own message stands above. A package index must be "
            "reachable; pip reads its address from its configuration (pip config list)."
        )


def _stamp(root: Path, name: str) -> Path:
    return root / ".venv" / f"installed-{name}"


def _digest(source: Path) -> str:
    return hashlib.sha256(source.read_bytes() + str(source.parent).encode()).hexdigest()


def _is_current(root: Path, name: str, source: Path) -> bool:
    stamp = _stamp(root, name)
    return stamp.exists() and stamp.read_text(encoding="utf-8") == _digest(source)


def _remember(root: Path, name: str, source: Path) -> None:
    _stamp(root, name).write_text(_digest(source), encoding="utf-8")


def main(arguments: list[str]) -> int:
    """Run as a command; exit status 2 when the environment cannot be made."""
    if len(arguments) != 1 or arguments[0] not in LOCKS:
        print(f"usage: environment.py {'|'.join(LOCKS)}", file=sys.stderr)
        return 2
    if sys.version_info < NEEDED:
        print(f"Scantling needs Python 3.11 or newer, this is {sys.version.split()[0]}.", file=sys.stderr)
        return 2
    try:
        prepare(arguments[0])
    except Trouble as trouble:
        print(f"Scantling's environment: {trouble}", file=sys.stderr)
        return 2
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
