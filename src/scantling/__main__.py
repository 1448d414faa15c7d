"""``python -m scantling``: the same command."""

from __future__ import annotations

import sys

from scantling.cli.main import main

sys.exit(main())
