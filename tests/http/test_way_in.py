"""The way in over HTTP: never said to fit where any narrow place is too narrow for the whole piece."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient


def way_in(client: FlaskClient, *access: dict[str, Any]) -> dict[str, Any]:
    site = {"kind": "open", "depths": [{"value": "12 ft"}], "access": list(access)}
    answer = client.post("/v1/fits", json={"units": "in", "template": "storage-bench", "site": site})
    assert answer.status_code == 200 and answer.json is not None, answer.text
    found: dict[str, Any] = answer.json["way_in"] | {"findings": answer.json["findings"]}
    return found


@pytest.mark.parametrize(("access", "fits"), [
    ([{"kind": "gate", "width": "36 in", "height": "7 ft"}], True),
    ([{"kind": "gate", "width": "20 in", "height": "7 ft"}], False),
    ([{"kind": "gate", "width": "36 in"}, {"kind": "turn", "width": "24 in", "width_after": "22 in"}], False),
    ([{"kind": "turn", "width": "24 in", "width_after": "60 in", "height": "7 ft"}], False),
    ([], True),
])
def test_the_way_in_fits_only_where_the_whole_piece_passes_every_place(
        client: FlaskClient, access: list[dict[str, Any]], fits: bool) -> None:
    assert way_in(client, *access)["fits"] is fits


def test_what_does_not_pass_whole_is_told_with_the_parts_that_do(client: FlaskClient) -> None:
    found = way_in(client, {"kind": "gate", "width": "18 in", "height": "7 ft"})
    assert "and 2 in more than the piece is wanted" in found["detail"]
    assert "Left to do on site" in found["detail"]
    assert [f["level"] for f in found["findings"] if f["rule"] == "way in"] == ["caution", "note"]
