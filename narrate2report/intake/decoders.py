"""What this machine can decode of what phones record."""

from __future__ import annotations

import av

WANTED = {
    "H.264": "h264",
    "HEVC": "hevc",
    "AV1": "av1",
    "VP9": "vp9",
    "AAC": "aac",
    "Opus": "opus",
    "MP3": "mp3",
    "AMR": "amrnb",
}
"""What pictures and sound of phones come in, with the name of its decoder."""


def missing_decoders() -> tuple[str, ...]:
    """Those of WANTED that the video library here was built without."""
    return tuple(kind for kind, decoder in WANTED.items() if decoder not in av.codecs_available)
