"""Joints are told by their parts, and no face shows a name of the file as it stands there."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from scantling.papers.words.joint_naming import joint_labels, looks_of, words_of
from scantling.papers.words.naming import knowing, label_of, place_words, plain_words
from scantling.plan.result import Plan
from tests.papers.faces import packet_texts, page_texts
from tests.plan.jobs import SHIPPED, demo_plan, shipped_plan

_RAW = re.compile(r"\w_\w|[a-z]\.\d")
_TO_WRITE = re.compile(r"`[^`]*`")
"""An underscore of a file's name, or a joint's running number."""


@pytest.mark.parametrize("piece", SHIPPED)
def test_no_two_joints_have_the_same_words(piece: str) -> None:
    """Each joint of each shipped piece has words of its own, with both its parts in them."""
    plan = shipped_plan(piece, rack=False)
    labels = joint_labels(plan.joints, looks_of(plan.parts))
    assert sorted(labels) == sorted(work.joint for work in plan.joints)
    assert len(set(labels.values())) == len(plan.joints)
    with words_of(plan):
        for work in plan.joints:
            assert plain_words(work.first) in labels[work.joint]
            assert plain_words(work.second) in labels[work.joint]
    assert not [label for label in labels.values() if _RAW.search(label)]


def test_an_end_is_told_where_the_part_has_the_joint_at_either() -> None:
    """The demo's aprons meet legs at both ends; its clips are at no end."""
    labels = _labels(demo_plan())
    assert labels["apron_to_leg.7"] == "apron right (front end) to front right leg"
    assert labels["breadboard.2"] == "end right to top (right end)"
    assert labels["clips.1"] == "apron front to top"


def test_two_joints_of_the_same_parts_are_told_apart() -> None:
    """By what the file calls them; two under one name, by number."""
    plan = demo_plan()
    pins = replace(plan.joints[0], joint="pins.1")
    labels = joint_labels((*plan.joints, pins, replace(pins, joint="pins.2")), looks_of(plan.parts))
    assert labels["pins.2"] == "apron front to front left leg, pins 2"
    single = joint_labels((*plan.joints[8:], replace(pins, joint="pegs.1"), pins), looks_of(plan.parts))
    assert single["pins.1"] == "apron front to front left leg, pins"
    assert len(set(labels.values())) == len(plan.joints) + 2


@pytest.mark.parametrize("piece", SHIPPED)
def test_no_face_shows_a_name_of_the_file(piece: str) -> None:
    """Sheets, page and packet of each shipped piece: no underscore and no numbered joint.

    What is to be written in the file stands between backquotes, as it is written there.
    """
    shown = [*page_texts(piece, "mm"), *packet_texts(piece, "mm")]
    assert len(shown) > 1000
    assert [text for text in shown if _RAW.search(_TO_WRITE.sub("", text))] == []


def test_a_letter_is_a_side_only_among_sides() -> None:
    """Four legs a to d are letters; front and back, or left and right, are sides; one alone is a letter."""
    with knowing(["leg_a", "leg_b", "leg_c", "leg_d"]):
        assert [label_of(f"leg_{each}") for each in "abcd"] == ["Leg a", "Leg b", "Leg c", "Leg d"]
    with knowing(["leg_f", "leg_b", "rail_l", "rail_r", "strut_b"]):
        assert label_of("leg_b") == "Back leg"
        assert label_of("rail_l") == "Left rail"
        assert label_of("strut_b") == "Strut b"
    with knowing(["leg_fl", "leg_fr", "leg_xl"]):
        assert label_of("leg_fl") == "Leg fl"
    assert label_of("leg_b") == "Leg b"


def test_a_joint_of_one_word_is_told_only_alone() -> None:
    """A single joint called ``clips`` is its parts where it stands alone, and stays a word in a sentence."""
    with knowing(["rail", "top"], {"clips": "rail to top"}):
        assert plain_words("clips") == "rail to top"
        assert plain_words("the clips stand apart") == "the clips stand apart"


def test_all_joints_of_an_entry_are_told_once() -> None:
    """Where a finding holds for each joint of an entry, its name and their number say so."""
    names = [work.joint for work in demo_plan().joints if work.joint.startswith("apron_to_leg")]
    with words_of(demo_plan()):
        assert place_words(", ".join(names)) == "Apron to leg, all 8"
        assert place_words("breadboard.1, breadboard.2") == "Breadboard, both"
        assert place_words(f"leg_fl/{names[0]}") == "Apron front (left end) to front left leg"
        assert place_words("leg_fl.start, leg_fl") == "Front left leg (bottom end); front left leg"


def _labels(plan: Plan) -> dict[str, str]:
    return dict(joint_labels(plan.joints, looks_of(plan.parts)))
