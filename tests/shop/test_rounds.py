"""Glue-ups in several rounds are named by their round."""

from __future__ import annotations

from scantling.piece.model import PartKind
from scantling.shop.gluing.innerglue import lamination_glueups
from scantling.shop.milling.milling import mill
from scantling.shop.profile.profile_file import default_shop
from tests.shop.parts import bare

SHOP = default_shop()


def test_a_thick_top_is_glued_up_in_rounds() -> None:
    """Fourteen layers of 1 800 by 90 go two at a time: groups, then rounds of those, by number."""
    top = bare(PartKind.LAMINATION, 1800.0, 90.0, 560.0, layer_quarters=(8,))
    names = [stage.name for stage in lamination_glueups(mill(top, SHOP), SHOP)]
    assert names[-1].endswith(": round 4 of layers")
    assert any("group 1 of round 2 of layers" in name for name in names)
    assert len(names) == len(set(names))
    assert not any("closing" in name for name in names)
