"""The command line. Importing it loads nothing heavy; each command imports what it needs."""

from scantling.cli.main import main

__all__ = ["main"]
