"""The exact kernel is loaded when it is first asked for, and two may ask at once."""

from __future__ import annotations

import subprocess
import sys

__all__: list[str] = []

_TWO_AT_ONCE = """
import sys, threading, time
from scantling.solids.exact import build_exact, exact_volume_mm3
from tests.solids.sticks import bar, shaped

sys.setswitchinterval(1e-5)  # threads take turns as often as they can
volumes = []

def build(waits):
    while waits and "OCP.OCP.BRepPrimAPI" not in sys.modules:  # the other thread is in the midst of loading
        time.sleep(0)
    volumes.append(round(exact_volume_mm3(build_exact(shaped(bar())))))

threads = [threading.Thread(target=build, args=(waits,)) for waits in (False, True)]
for thread in threads:
    thread.start()
for thread in threads:
    thread.join()
print(volumes)
"""


def test_a_part_is_built_while_another_thread_still_loads_the_kernel() -> None:
    """Two pictures asked for at once by a page just opened: both are drawn, none without its constructors."""
    asked = [sys.executable, "-c", _TWO_AT_ONCE]
    told = subprocess.run(asked, capture_output=True, text=True, timeout=120, check=True)
    assert told.stdout.strip() == str([700 * 60 * 40] * 2), told.stderr
