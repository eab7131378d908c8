"""The work list as a workbook (Office Open XML): a sheet of tasks to filter and print, and one about the list.

Every text is written as a string and never as a formula, number or link; links are links of their own. A text or
address that is longer than a cell may hold is cut, and says so by an ellipsis, or is left as text.
"""

from __future__ import annotations

import io
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import xlsxwriter

from narrate2report.publish.work_list import Task, WorkList
from narrate2report.publish.work_words import WORDS

WIDTHS = {
    "number": 5,
    "urgency": 11,
    "unit": 10,
    "room": 16,
    "part": 18,
    "found": 38,
    "to_do": 22,
    "party": 10,
    "mind": 34,
    "time": 14,
    "still": 26,
    "remark": 26,
    "reviewed": 14,
    "entry": 12,
    "record": 24,
}
"""Columns in order, each with its width in characters; a time carries its link, so that none is needed beside it."""

LONGEST_TEXT = 32_767
LONGEST_ADDRESS = 2_079
"""Characters that a cell and a link may hold (limits of the spreadsheet program that the format comes from)."""

HEAD_ROW = 1
ABOUT_WIDTH = 100

_STRINGS_ALONE = {
    "in_memory": True,
    "strings_to_formulas": False,
    "strings_to_urls": False,
    "strings_to_numbers": False,
    "max_url_length": LONGEST_ADDRESS,
}


def xlsx_of(listed: WorkList) -> bytes:
    """The whole workbook. Equal lists give equal bytes."""
    whole = io.BytesIO()
    with xlsxwriter.Workbook(whole, _STRINGS_ALONE) as book:
        at = listed.heading.made_at.replace(tzinfo=None)
        title = _fitting(f"{WORDS.title}: {listed.heading.about}")
        book.set_properties({"title": title, "status": listed.heading.mark, "created": at})
        look = _Look.of(book)
        _tasks_sheet(book.add_worksheet(WORDS.title), listed, look)
        _about_sheet(book.add_worksheet(WORDS.about), listed, look)
    return whole.getvalue()


@dataclass(frozen=True)
class _Look:
    """How cells look: bold, head, wrapped text, link, and the two upper ranks of urgency."""

    bold: Any
    head: Any
    text: Any
    link: Any
    ranks: dict[str, Any]

    @classmethod
    def of(cls, book: Any) -> _Look:
        plain = {"text_wrap": True, "valign": "top"}
        head = {**plain, "bold": True, "bg_color": "#E7ECEF", "bottom": 1}
        return cls(
            bold=book.add_format({"bold": True}),
            head=book.add_format(head),
            text=book.add_format(plain),
            link=book.add_format({**plain, "font_color": "#0B5394", "underline": 1}),
            ranks={
                "safety": book.add_format({**plain, "bold": True, "bg_color": "#F9DCD6"}),
                "soon": book.add_format({**plain, "bg_color": "#FFF3CD"}),
                "in_turn": book.add_format(plain),
            },
        )


def _tasks_sheet(sheet: Any, listed: WorkList, look: _Look) -> None:
    sheet.write_string(0, 0, _fitting(f"{listed.heading.mark} · {listed.heading.about}"), look.bold)
    for column, (name, width) in enumerate(WIDTHS.items()):
        sheet.set_column(column, column, width)
        sheet.write_string(HEAD_ROW, column, WORDS.columns[name], look.head)
    for row, task in enumerate(listed.tasks, start=HEAD_ROW + 1):
        _task_row(sheet, row, task, listed, look)
    if not listed.tasks:
        sheet.write_string(HEAD_ROW + 1, 0, WORDS.empty)
    sheet.freeze_panes(HEAD_ROW + 1, 0)
    sheet.autofilter(HEAD_ROW, 0, HEAD_ROW + max(1, len(listed.tasks)), len(WIDTHS) - 1)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(HEAD_ROW)
    sheet.set_footer("&C&P / &N")


def _task_row(sheet: Any, row: int, task: Task, listed: WorkList, look: _Look) -> None:
    texts = task.in_columns(listed.heading)
    for column, name in enumerate(WIDTHS):
        if name == "number":
            sheet.write_number(row, column, row - HEAD_ROW, look.text)
        elif name == "time":
            _link(sheet, (row, column), task.moment.label, task.moment.link, look)
        elif name == "still" and task.picture is not None:
            _link(sheet, (row, column), task.picture.label, task.picture.address, look)
        elif texts[name]:
            sheet.write_string(
                row, column, _fitting(texts[name]), look.ranks[task.urgency] if name == "urgency" else look.text
            )


def _link(sheet: Any, cell: tuple[int, int], label: str, address: str | None, look: _Look) -> None:
    """A text that opens an address, or the text alone where there is none that a cell can hold."""
    if address is None or len(address) > LONGEST_ADDRESS:
        sheet.write_string(*cell, _fitting(label), look.text)
        return
    whole = address if "://" in address else f"external:{address}"
    if sheet.write_url(*cell, whole, look.link, string=_fitting(label)) != 0:
        sheet.write_string(*cell, _fitting(label), look.text)


def _about_sheet(sheet: Any, listed: WorkList, look: _Look) -> None:
    sheet.set_column(0, 0, 14)
    sheet.set_column(1, 1, ABOUT_WIDTH)
    for row, (name, words) in enumerate(_about(listed)):
        sheet.write_string(row, 0, name, look.head)
        sheet.write_string(row, 1, _fitting(words), look.text)


def _about(listed: WorkList) -> Iterable[tuple[str, str]]:
    yield WORDS.record, listed.heading.about
    yield "", listed.heading.mark
    for urgency, words in WORDS.rule.items():
        yield WORDS.order, f"{WORDS.urgencies[urgency]}: {words}"
    yield WORDS.order, WORDS.rule_note
    for caution in listed.cautions:
        yield WORDS.cautions, caution


def _fitting(words: str) -> str:
    """The words, cut where a cell ends; a cell counts in UTF-16, in which an emoji is two."""
    units = words.encode("utf-16-le")
    if len(units) <= 2 * LONGEST_TEXT:
        return words
    return units[: 2 * (LONGEST_TEXT - 1)].decode("utf-16-le", "ignore") + "…"
