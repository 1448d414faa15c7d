"""What is sent as JSON says the same as the standard library would write of it."""

from __future__ import annotations

import json
import math

import pytest

from scantling.web.designs.sending import Sent, json_bytes
from scantling.web.designs.session import Session
from scantling.web.sent.views import as_json
from tests.web.specimen import DEMO


def test_a_plan_is_sent_as_the_standard_library_reads_it() -> None:
    """Every word and figure of the demo piece, to the last digit."""
    view = Session(DEMO).plan_view({}, whole=False)
    assert json.loads(json_bytes(view)) == json.loads(json.dumps(as_json(view)))
    assert Sent(view).headers["content-type"] == "application/json"


@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_not_sent(number: float) -> None:
    """A browser could not read it; the words for it are sent as words."""
    with pytest.raises(ValueError, match="not JSON compliant"):
        json_bytes({"depth": number})
    assert json_bytes({"note": "Infinity and NaN"}) == b'{"note":"Infinity and NaN"}'
