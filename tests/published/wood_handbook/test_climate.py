"""Wood Handbook, FPL-GTR-190 (2010), chapter 13: moisture outdoors (Table 13-1), for interiors (Table 13-2).

The three averages for interiors were read in a citation of Figure 13-1; limits for single pieces and all of
Table 13-1 were recalled, and are held to be kept as estimates.
"""

from __future__ import annotations

import pytest

from scantling.seasons.places import find_place
from scantling.seasons.room_file import find_room
from tests.published.tables import printed_rows

OUTDOORS = printed_rows("wood_handbook", "table_13_1.csv")
INTERIORS = [
    # room, average (read), limits of single pieces (recalled)
    ("most-of-the-us", 8.0, 6.0, 10.0),
    ("dry-southwest", 6.0, 4.0, 9.0),
    ("damp-warm-coast", 11.0, 8.0, 13.0),
]


@pytest.mark.parametrize("row", OUTDOORS, ids=lambda row: row["place"])
def test_the_outdoors_of_a_town_is_kept_as_recalled(row: dict[str, str]) -> None:
    """Twelve figures a town come back through temperature and humidity; the room calls them estimates."""
    place = find_place(row["place"])
    recalled = [float(figure) for month, figure in row.items() if month != "place"]
    assert place.outdoors.emc_pct == pytest.approx(recalled, abs=1e-6)
    assert "estimate" in find_room(row["place"]).about


def test_all_towns_were_found() -> None:
    """The check above has rows to check."""
    assert len(OUTDOORS) == 49


@pytest.mark.parametrize(("room", "average", "dry", "wet"), INTERIORS)
def test_interiors_swing_about_the_average(room: str, average: float, dry: float, wet: float) -> None:
    """The typical room goes from one limit to the other, half a point about the printed average."""
    moistures = find_room(room).year.emc_pct
    assert (min(moistures), max(moistures)) == pytest.approx((dry, wet), abs=0.01)
    assert abs((min(moistures) + max(moistures)) / 2.0 - average) <= 0.51  # limits are whole percents
