"""A PDF read back with a library that did not make it."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from typing import Any

from pypdf import PdfReader
from pypdf.generic import ArrayObject, DictionaryObject, IndirectObject


class ReadBack:
    """What a reader, a screen reader and an archive find in a PDF."""

    def __init__(self, content: bytes) -> None:
        self._reader = PdfReader(io.BytesIO(content))
        self.root: Any = self._reader.trailer["/Root"]
        self.pages = [re.sub(r"\s+", " ", page.extract_text().replace("\u200b", "")) for page in self._reader.pages]
        self.text = " ".join(self.pages)

    @property
    def title(self) -> str | None:
        """As a window shows it."""
        return self._reader.metadata.title if self._reader.metadata else None

    @property
    def links(self) -> list[str]:
        """Every address that can be clicked."""
        notes = [note.get_object() for page in self._reader.pages for note in page.get("/Annots", [])]
        return [str(note["/A"]["/URI"]) for note in notes if "/URI" in note.get("/A", {})]

    @property
    def picture_widths(self) -> list[int]:
        """Pixels of every picture, from left to right."""
        found: list[int] = []
        waiting: list[Any] = [page["/Resources"] for page in self._reader.pages]
        for resources in waiting:
            parts = [part.get_object() for part in resources.get_object().get("/XObject", {}).values()]
            found += [int(part["/Width"]) for part in parts if part["/Subtype"] == "/Image"]
            waiting += [part["/Resources"] for part in parts if "/Resources" in part]
        return found

    @property
    def attachments(self) -> dict[str, tuple[Any, bytes]]:
        """Each file inside, by its name: what the PDF says of it, and its bytes."""
        return {str(one["/UF"]): (one, one["/EF"]["/F"].get_object().get_data()) for one in self._files()}

    def _files(self) -> Iterator[Any]:
        for one in self.root.get("/AF", []):
            yield one.get_object()

    @property
    def drawing(self) -> str:
        """What draws the pages: marked content with its language among it."""
        contents = [page.get_contents() for page in self._reader.pages]
        return "".join(one.get_data().decode("latin-1") for one in contents if one is not None)

    @property
    def metadata(self) -> str:
        """The XMP packet."""
        return str(self.root["/Metadata"].get_object().get_data().decode("utf-8"))

    @property
    def fonts(self) -> list[Any]:
        """Every font of every page, as the descriptor that holds or lacks its file."""
        found = []
        for page in self._reader.pages:
            for font in page["/Resources"].get("/Font", {}).values():  # type: ignore[attr-defined]
                made = font.get_object()
                parts = made.get("/DescendantFonts", [made])
                found += [part.get_object()["/FontDescriptor"].get_object() for part in parts]
        return found

    def structure(self) -> Iterator[tuple[str, str | None]]:
        """Each element of the structure tree with its alternative text."""
        waiting: list[Any] = [self.root["/StructTreeRoot"].get_object()["/K"]]
        while waiting:
            one = waiting.pop()
            one = one.get_object() if isinstance(one, IndirectObject) else one
            if isinstance(one, ArrayObject):
                waiting += list(one)
            elif isinstance(one, DictionaryObject) and "/S" in one:
                yield str(one["/S"]), str(one["/Alt"]) if "/Alt" in one else None
                waiting.append(one.get("/K", ArrayObject()))
