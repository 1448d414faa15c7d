"""The published plan as a file: whole, in either unit and in both, and safe whatever the piece is called."""

from __future__ import annotations

import base64
import hashlib
import json
import re
import xml.etree.ElementTree as ET
from html.parser import HTMLParser
from pathlib import Path

import pytest

from scantling.cli.main import main
from scantling.papers.sheets import Table
from scantling.papers.words.unbroken import unbroken
from scantling.web.designs.session import Session
from scantling.web.publishing.drawing import Drawings
from scantling.web.publishing.linking import link
from tests.web.shown_units import shown_in
from tests.web.specimen import DEMO

__all__: list[str] = []

_RACK = DEMO.parent / "racks" / "reading-table.csv"
_SHOP = DEMO.parent / "shops" / "reading-table.yaml"
_HOSTILE = "</script><script>alert(1)</script><img src=x onerror=alert(2)> & 'so' \"on\""


class _Read(HTMLParser):
    """What a browser would find in the file."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.inside: dict[str, list[str]] = {}
        self._open = ""
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        self._open = tag
        if tag in {"script", "style"}:
            self.inside.setdefault(tag, []).append("")

    def handle_data(self, data: str) -> None:
        if self._open in {"script", "style"}:
            self.inside[self._open][-1] += data
        else:
            self.inside.setdefault(self._open, []).append(data)

    def handle_endtag(self, tag: str) -> None:
        self._open = ""


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The demo piece, published under a name that tries to get out of every place it is written to."""
    folder = tmp_path_factory.mktemp("hostile")
    text = DEMO.read_text(encoding="utf-8")
    quoted = _HOSTILE.replace("'", "''")
    text = re.sub(r"(?m)^(title|name): .*$", lambda found: f"{found[1]}: '{quoted}'", text, count=1)
    assert quoted in text
    (folder / "piece.yaml").write_text(text, encoding="utf-8")
    session = Session(folder / "piece.yaml", rack=_RACK, shop=_SHOP)
    return session.published({}).content.decode()


def test_a_hostile_title_stays_words(hostile: str) -> None:
    """It is read as it was written, and makes no element and no attribute that runs."""
    read = _Read(hostile)
    tags = [tag for tag, _ in read.tags]
    assert tags.count("script") == 4  # theme, data, scene, and the one that draws
    assert "img" not in tags
    assert not [name for _, attrs in read.tags for name in attrs if name.startswith("on")]
    assert "".join(read.inside["h1"]).replace("\u00a0", " ") == _HOSTILE
    assert not [script for script in read.inside["script"] if "alert(" in script]


def test_the_file_names_nothing_elsewhere_and_loads_nothing(hostile: str) -> None:
    """No element with an address, no rule with one, and no address but the names of vocabularies."""
    read = _Read(hostile)
    assert not [
        attrs for tag, attrs in read.tags if tag in {"link", "iframe", "base", "object"} or "src" in attrs
    ]
    assert {attrs["href"] for _, attrs in read.tags if "href" in attrs} == {"#told"}
    assert "url(" not in "".join(read.inside["style"]).replace("url(#", "")
    words = re.sub(r"<script[^>]*>.*?</script>", "", hostile, flags=re.DOTALL)
    assert set(re.findall(r"https?://[\w.]+", words)) <= {"http://www.w3.org"}


def test_the_policy_allows_just_the_scripts_and_the_style_that_are_there(hostile: str) -> None:
    """Each is named by its digest; no attribute of style is left, for it would be refused."""
    read = _Read(hostile)
    (policy,) = (attrs["content"] for tag, attrs in read.tags if "http-equiv" in attrs)
    assert policy is not None
    scripts = [each for each in read.inside["script"] if not each.startswith(("{", "H4sI"))]
    for text in [*scripts, *read.inside["style"]]:
        digest = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
        assert f"'sha256-{digest}'" in policy
    assert policy.count("sha256-") == 3
    assert "unsafe" not in policy
    assert not [tag for tag, attrs in read.tags if "style" in attrs]


def test_all_units_are_the_plans_own_and_no_price_is_told(hostile: str) -> None:
    """Figures as the plan shows them in either unit and in both; no sum of money anywhere."""
    session = Session(DEMO, rack=_RACK, shop=_SHOP)
    currency = session.design({}).plan.pricing.currency
    words = re.sub(r"<(script|style)[^>]*>.*?</\1>", "", hostile, flags=re.DOTALL)
    markup = '<div class="told">' + words.split('<div class="told">', 1)[1].split("</main>", 1)[0]
    root = ET.fromstring(markup.rstrip().removesuffix("</div>"))  # noqa: S314 - made by us just now
    for units in ("mm", "in", "both"):
        rows = [
            ["".join(cell.itertext()) for cell in row.iter("td")] for row in shown_in(root, units).iter("tr")
        ]
        sheets = {sheet.id: sheet for sheet in session.plan_view({"units": units}).sheets}
        (wanted, *_) = sheets["parts"].blocks
        assert isinstance(wanted, Table)
        assert all([unbroken(cell) for cell in row] in rows for row in wanted.rows)
        assert len(wanted.rows) == 5
    assert "Caution" in words
    assert currency not in words
    assert "In short" not in words


def test_steps_between_maker_and_client_are_left_out(hostile: str) -> None:
    """A reader has no client: the first step is about timber."""
    steps = hostile.split('<ol class="steps">', 1)[1]
    assert steps.startswith("<li><h3>Choose the boards")
    assert "with the client" not in hostile.split("</style>", 1)[1].split('id="data"', 1)[0]


def test_the_license_of_what_is_inlined_stands_in_the_file(hostile: str) -> None:
    """The notice that its license asks for is kept."""
    assert "@license" in hostile
    assert "SPDX-License-Identifier: MIT" in hostile


def test_the_command_writes_it_and_refuses_what_it_should(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A file of under 3 MB; not over another one, and not without the ending browsers go by."""
    target = tmp_path / "plan.html"
    assert main(["publish", str(DEMO), "-o", str(target), "--units", "in"]) == 0
    assert 500_000 < target.stat().st_size < 3_000_000
    text = target.read_text(encoding="utf-8")
    assert re.findall(r'name="units" id="show-(\w+)"', text) == ["in", "mm", "both"]
    assert 'id="show-in" value="in" checked' in text
    assert main(["publish", str(DEMO), "-o", str(target)]) == 2
    assert "--force" in capsys.readouterr().err
    assert main(["publish", str(DEMO), "-o", str(tmp_path / "plan.txt")]) == 2


def test_what_is_measured_and_the_fraction_asked_for_are_in_it(tmp_path: Path) -> None:
    """A top of 657 mm, which is 25.866 in: 25 7/8 in to a sixteenth."""
    measured, target = tmp_path / "made.yaml", tmp_path / "plan.html"
    measured.write_text("measured: {top: {width: 657 mm}}\n", encoding="utf-8")
    asked = ["publish", str(DEMO), "-o", str(target), "--measured", str(measured), "--fractions", "16"]
    assert main(asked) == 0
    data = json.loads(re.search(r'id="data">(.*?)</script>', target.read_text(encoding="utf-8"))[1])
    sizes = {
        unit: dict(parts["top"])["Width"].replace("\u00a0", " ") for unit, parts in data["sizes"].items()
    }
    assert sizes["mm"].startswith("657 mm")
    assert sizes["in"].startswith("25 7/8 in")
    assert sizes["both"].startswith("657 mm [25 7/8 in]")


@pytest.mark.parametrize(
    "files",
    [
        {"/a.js": 'import "./b.js";', "/b.js": 'import "./a.js";'},
        {"/a.js": "export default 1;"},
        {"/a.js": "const at = import.meta.url;"},
        {"/a.js": 'const lazy = await import("./b.js");'},
        {"/a.js": 'import { x } from "nowhere";'},
        {"/a.js": 'const end = "</script>";'},
    ],
    ids=["circle", "default", "meta", "lazy", "nowhere", "end of script"],
)
def test_what_cannot_be_linked_is_refused(files: dict[str, str]) -> None:
    """Never a script with an import left in it."""
    with pytest.raises(ValueError, match=r"\w"):
        link("/a.js", files.__getitem__, {})


def test_every_way_of_exporting_is_linked() -> None:
    """Named, listed, renamed and passed on; the map's folders are known."""
    files = {
        "/a.js": 'import { one as eins, two, three } from "lib/b.js";\nexport const [x, y] = [eins, two];',
        "/lib/b.js": 'export { one } from "./c.js";const a=2;export{a as two};\nexport function three() {}',
        "/lib/c.js": "export class one {}",
    }
    script = link("/a.js", files.__getitem__, {"lib/": "/lib/"})
    assert script.index("class one {}") < script.index("const a=2") < script.index("eins")
    assert 'const { one: eins, two, three } = modules["/lib/b.js"];' in script
    assert "get two() { return a; }" in script
    assert 'get one() { return modules["/lib/c.js"].one; }' in script
    assert "get y() { return y; }" in script


def test_a_drawing_brings_no_script_and_no_style_of_its_own() -> None:
    """What it holds beside lines and letters is left out; its styles become classes; ids stay its own."""
    drawings = Drawings()
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"><script>bad()</script>'
        '<clipPath id="c"><rect width="1"/></clipPath>'
        '<path d="M0 0" onclick="bad()" style="fill:red" clip-path="url(#c)"/><text>A &lt;b&gt;</text></svg>'
    )
    made = drawings.set(svg, 'a "board"')
    assert "bad()" not in made
    assert "style=" not in made
    assert 'aria-label="a &quot;board&quot;"' in made
    assert '<clipPath id="p1-c">' in made
    assert 'clip-path="url(#p1-c)"' in made
    assert "A &lt;b&gt;" in made
    assert drawings.styles() == ".d0{fill:red}"
