"""What the 3D picture of 300 parts costs: draw calls, triangles, JavaScript of a frame, size of its file.

There is no graphics card here, so what one would reach is not measured. Where the JavaScript is timed, the
calls that draw do nothing: what is timed is all that the page does before them. Apart from that frames of the
browser's software renderer are timed, at the size of picture that is printed: each one turned, drawn by the
processor and waited for until its pixels are there.
"""

from __future__ import annotations

import statistics
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Thread
from typing import Any

from frames import frames_text
from timing import Timing, timed

__all__ = ["timings"]

PARTS, FRAMES = 300, 60
FLAGS = [
    "--no-sandbox",
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
    "--disable-background-networking",
]
_COUNTING = """
(() => {
  const cost = (window.pictureCost = { calls: 0, triangles: 0, frames: [], idle: false });
  const proto = WebGL2RenderingContext.prototype;
  const watch = (name, counted) => {
    const own = proto[name];
    proto[name] = function (...given) {
      cost.calls += 1;
      if (given[0] === 4) cost.triangles += counted(given) / 3;
      if (!cost.idle) own.apply(this, given);
    };
  };
  watch("drawArrays", ([, , count]) => count);
  watch("drawElements", ([, count]) => count);
  watch("drawArraysInstanced", ([, , count, times]) => count * times);
  watch("drawElementsInstanced", ([, count, , , times]) => count * times);
  const next = window.requestAnimationFrame.bind(window);
  window.requestAnimationFrame = (action) => next((now) => {
    const { calls, triangles } = cost, start = performance.now();
    action(now);
    const ms = performance.now() - start;
    const made = { ms, calls: cost.calls - calls, triangles: cost.triangles - triangles };
    if (made.calls) cost.frames.push(made);
  });
})();
"""
_TURNING = """async (times) => {
  const plate = document.querySelector("piece-plate"), cost = window.pictureCost;
  await new Promise((done) => setTimeout(done, 500));
  cost.frames = [];
  cost.idle = true;
  for (let k = 0; k < times; k += 1) {
    plate.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowLeft", bubbles: true }));
    await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
  }
  return cost.frames;
}"""
_PULLING = """async (times) => {
  const pull = document.querySelector("#pull"), cost = window.pictureCost;
  cost.frames = [];
  for (let k = 1; k <= times; k += 1) {
    const start = performance.now();
    pull.value = String(k);
    pull.dispatchEvent(new Event("input", { bubbles: true }));
    const before = performance.now() - start;
    await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
    const last = cost.frames.at(-1);
    if (last) last.ms += before;
  }
  return cost.frames;
}"""

_DRAWING = """async (times) => {
  const plate = document.querySelector("piece-plate"), canvas = plate.querySelector("canvas");
  const gl = canvas.getContext("webgl2"), pixel = new Uint8Array(4), taken = [];
  window.pictureCost.idle = false;
  for (let k = 0; k <= times; k += 1) {
    const start = performance.now();
    plate.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowLeft", bubbles: true }));
    await new Promise((done) => requestAnimationFrame(done));
    gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, pixel); // there only once all before it is drawn
    if (k) taken.push(performance.now() - start);
    await new Promise((done) => setTimeout(done));
  }
  return { taken, size: [canvas.width, canvas.height] };
}"""


@contextmanager
def _served(piece: Path) -> Iterator[str]:
    import uvicorn

    from scantling.web.app import create_app
    from scantling.web.designs.session import Session
    from scantling.web.serving import bind

    with bind(0) as listening:
        listening.listen(16)
        config = uvicorn.Config(create_app(Session(piece)), log_level="error", lifespan="off")
        server = uvicorn.Server(config)
        thread = Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        thread.start()
        yield f"http://127.0.0.1:{listening.getsockname()[1]}/"
        server.should_exit = True
        thread.join(timeout=60)


def costs(*, alike: bool) -> dict[str, Any]:
    """Figures of one piece of 300 parts, all of one size a kind, or hardly two alike."""
    import shutil
    import urllib.request

    from playwright.sync_api import sync_playwright

    with TemporaryDirectory() as folder, sync_playwright() as play:
        piece = Path(folder) / "frames.yaml"
        piece.write_text(frames_text(PARTS // 3, alike=alike), encoding="utf-8")
        with _served(piece) as address:
            with urllib.request.urlopen(f"{address}api/scene.glb") as answer:  # noqa: S310 - our own server
                size = len(answer.read())
            browser = play.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
            page = browser.new_page(viewport={"width": 1280, "height": 900})
            page.add_init_script(_COUNTING)
            page.goto(address)
            page.wait_for_selector("piece-plate[data-ready]", timeout=120_000)
            turned = page.evaluate(_TURNING, FRAMES)
            pulled = page.evaluate(_PULLING, FRAMES)
            drawn = page.evaluate(_DRAWING, FRAMES)
            browser.close()
    return {"size": size, "turned": turned, "pulled": pulled, "drawn": drawn}


def timings() -> list[Timing]:
    """Time a frame of turning and one of pulling apart without the drawing, and one drawn in software."""
    done = []
    for alike in (True, False):
        found = costs(alike=alike)
        kind = "alike" if alike else "hardly two alike"
        for what, frames in (("turned", found["turned"]), ("pulled apart", found["pulled"])):
            taken_s = [frame["ms"] / 1000.0 for frame in frames]
            done.append(timed(f"picture of {PARTS} parts, {kind}, {what}: JavaScript of a frame", taken_s))
        wide, high = found["drawn"]["size"]
        name = f"picture of {PARTS} parts, {kind}, {wide} x {high} pixels: a frame of the software renderer"
        done.append(timed(name, [ms / 1000.0 for ms in found["drawn"]["taken"]]))
    return done


def main() -> None:
    """Print the figures, draw calls and file size too."""
    for alike in (True, False):
        found = costs(alike=alike)
        print(f"{PARTS} parts, {'alike' if alike else 'hardly two alike'}: file {found['size'] / 1e6:.2f} MB")
        for what in ("turned", "pulled"):
            frames = found[what]
            ms = statistics.median(frame["ms"] for frame in frames)
            calls = statistics.median(frame["calls"] for frame in frames)
            triangles = statistics.median(frame["triangles"] for frame in frames)
            print(
                f"  {what}: {calls:.0f} draw calls, {triangles:.0f} triangles, {ms:.2f} ms JavaScript a frame"
            )
        drawn = found["drawn"]
        ms = statistics.median(drawn["taken"])
        wide, high = drawn["size"]
        print(f"  drawn in software, {wide} x {high} pixels: {ms:.0f} ms a frame, {1000.0 / ms:.1f} a second")


if __name__ == "__main__":
    sys.exit(main())
