"""Whatever a room file or a log holds, the answer is a room or a list of faults, never a crash."""

from __future__ import annotations

import contextlib

from hypothesis import given
from hypothesis import strategies as st

from scantling.errors import FileFaults, InputError
from scantling.reading import parse_document
from scantling.seasons.hygrometer import parse_log
from scantling.seasons.room_file import find_room, room_from_document
from scantling.wood.own_species import own_species_from_document

KINDS = ["range", "moisture", "months", "climate", "log", "", "7"]
VALUES = st.one_of(
    st.sampled_from(
        ["20 C", "68 F", "45 %", "150 %", "0.45", "-300 C", "1e9", ".nan", "nan %", "[]", "{}", "jan"]
    ),
    st.text(alphabet="0123456789.CF% {}[]:,-\n", max_size=12),
)
FIELDS = st.sampled_from(["winter", "summer", "dry", "wet", "months", "house", "place", "altitude", "file"])
CELLS = st.one_of(
    st.sampled_from(
        ["2026-01-31 14:30", "2026-01-31T14:30:00+02:00", "20", "68,5", "999", "1e400", "nan", ""]
    ),
    st.text(max_size=10),
)


@given(kind=st.sampled_from(KINDS), fields=st.dictionaries(FIELDS, VALUES, max_size=6))
def test_any_room_file_gives_a_room_or_its_faults(kind: str, fields: dict[str, str]) -> None:
    """Fields of all kinds mixed, with values of all kinds."""
    lines = [f"  {name}: {value}" for name, value in fields.items()]
    text = "\n".join(["room: x", "air:", f"  kind: '{kind}'", *lines])
    with contextlib.suppress(FileFaults):
        assert room_from_document(parse_document(text, file="room.yaml")).year.emc_pct


@given(rows=st.lists(st.lists(CELLS, max_size=5), max_size=30), separator=st.sampled_from(",;\t"))
def test_any_log_gives_readings_or_its_faults(rows: list[list[str]], separator: str) -> None:
    """Rows of rubbish under a good header; what is read lies in order and within what air can be."""
    text = "\n".join([separator.join(["time", "temp", "rh"]), *(separator.join(row) for row in rows)])
    with contextlib.suppress(FileFaults):
        log = parse_log(text, file="log.csv")
        times = [reading.time for reading in log.readings]
        assert times == sorted(times)
        assert all(0.0 <= reading.air.relative_humidity <= 1.0 for reading in log.readings)
        with contextlib.suppress(InputError):
            assert len(log.year()[0].months) == 12


@given(text=st.text(max_size=200))
def test_any_text_is_a_log_or_is_refused(text: str) -> None:
    """Bytes of any kind."""
    with contextlib.suppress(FileFaults):
        parse_log(text, file="log.csv")


@given(name=st.text(max_size=40))
def test_any_name_is_a_room_or_is_refused(name: str) -> None:
    """Names with nulls, slashes and signs."""
    with contextlib.suppress(FileFaults, InputError):
        assert find_room(name).name


@given(
    fields=st.dictionaries(
        st.sampled_from(["name", "source", "tangential_pct", "moe_mpa"]), VALUES, max_size=4
    )
)
def test_any_file_of_woods_gives_woods_or_its_faults(fields: dict[str, str]) -> None:
    """Values of all kinds."""
    body = "\n    ".join(f"{name}: {value}" for name, value in fields.items()) or "name: x"
    with contextlib.suppress(FileFaults):
        assert own_species_from_document(parse_document(f"woods:\n  - {body}\n", file="woods.yaml"))
