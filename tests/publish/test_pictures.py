"""A picture goes into the PDF as it is: its size read from its own first bytes, nonsense refused."""

from __future__ import annotations

import base64
from pathlib import Path
from xml.etree.ElementTree import fromstring

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from narrate2report.errors import BadInput
from narrate2report.intake.frames import Frame
from narrate2report.intake.still_file import as_jpeg, as_png
from narrate2report.publish.pictures import wrapped


@pytest.mark.parametrize(("write", "kind"), [(as_jpeg, "jpeg"), (as_png, "png")])
@pytest.mark.parametrize(("width", "height"), [(80, 40), (42, 300)])
def test_the_bytes_stay_and_the_size_is_the_pictures_own(
    tmp_path: Path, write: object, kind: str, width: int, height: int
) -> None:
    assert callable(write)
    content = write(Frame(time_s=0.0, pixels=np.full((height, width, 3), 90, np.uint8)))
    (tmp_path / "still").write_bytes(content)
    made = fromstring(wrapped(tmp_path / "still"))
    assert (made.get("width"), made.get("height")) == (str(width), str(height))
    head, _, inside = str(made[0].get("href")).partition(",")
    assert head == f"data:image/{kind};base64"
    assert base64.b64decode(inside) == content


@given(st.binary(max_size=60), st.sampled_from([b"", b"\xff\xd8", b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n"]))
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_whatever_the_bytes_it_is_a_picture_or_refused(tmp_path: Path, content: bytes, head: bytes) -> None:
    (tmp_path / "still").write_bytes(head + content)
    try:
        made = wrapped(tmp_path / "still")
    except BadInput:
        return
    assert fromstring(made)[0].get("href")


@pytest.mark.parametrize("content", [b"", b"GIF89a", b"\xff\xd8", b"\x89PNG\r\n\x1a\n"])
def test_what_is_no_picture_is_refused(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "still").write_bytes(content)
    with pytest.raises(BadInput, match="is no picture that can be printed"):
        wrapped(tmp_path / "still")
