"""``python -m scantling``: the same command."""

from __future__ import annotations

import sys

from scantling.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
