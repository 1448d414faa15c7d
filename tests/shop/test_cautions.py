"""Every machine and operation that is planned carries its usual caution."""

from __future__ import annotations

import pytest

from scantling.errors import ModelError
from scantling.shop.operations.cautions import caution, cautions, cautions_at, cautions_for, operation_of
from scantling.shop.operations.routing import Machine


@pytest.mark.parametrize("machine", [machine for machine in Machine if machine is not Machine.NONE])
def test_every_machine_has_a_caution(machine: Machine) -> None:
    """No machine is planned without one."""
    assert caution(operation_of(machine)).text.endswith(".")


def test_the_operations_of_a_job_are_all_there() -> None:
    """From ripping to lifting."""
    wanted = {
        "ripping",
        "crosscutting",
        "jointing",
        "planing",
        "glue",
        "clamps",
        "sanding",
        "finishing",
        "lifting",
    }
    assert wanted <= set(cautions())


def test_nothing_is_called_safe() -> None:
    """We remind and defer; we never say that something is safe."""
    for one in cautions().values():
        assert " safe" not in one.text.replace("safety", "")


def test_rags_name_what_to_do() -> None:
    """Oily rags heat themselves: the caution says where they go, and to whom to defer."""
    rags = caution("finishing")
    assert "drown them in a closed metal can" in rags.text
    assert "fire officer" in rags.defer_to


def test_each_text_comes_once_and_an_unknown_operation_is_our_defect() -> None:
    """Twice glue is one text; a misspelt operation is refused by name."""
    assert len(cautions_for("glue", "clamps", "glue")) == 2
    with pytest.raises(ModelError, match="no caution for flying"):
        caution("flying")


def test_what_is_done_by_hand_has_the_caution_of_hand_tools() -> None:
    """Nobody is told of a riving knife who saws by hand; who does both is told both."""
    by_hand, ripping = cautions_for("hand tools"), cautions_for("ripping")
    assert cautions_at((Machine.HAND_SAW,), "ripping") == by_hand
    assert cautions_at((Machine.TABLE_SAW,), "ripping") == ripping
    assert cautions_at((Machine.TABLE_SAW, Machine.HAND_SAW), "ripping") == (*ripping, *by_hand)
    assert cautions_at((), "ripping") == ripping
