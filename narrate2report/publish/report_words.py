"""The fixed wording of the report, in one place: another language is another such module.

Nothing here is read from a record. What an entry says is worded in `wording`.
"""

from __future__ import annotations

from typing import Final

from narrate2report.publish.report_values import Mark, Reader, Standing

LANGUAGE: Final = "en"

MARKS: Final[dict[Mark, str]] = {
    "attention": "Needs attention",
    "fails": "Does not work",
    "possible": "Not certain",
    "untested": "Not tested",
    "works": "Works",
    "sound": "In order",
    "fact": "Description",
    "work": "Work to do",
    "silent": "Not spoken of",
}
READERS: Final[dict[Reader, str]] = {
    "resident": "the resident",
    "owner": "the owner",
    "office": "the office",
}
STANDINGS: Final[dict[Standing, str]] = {
    "draft": "DRAFT – not fully reviewed",
    "reviewed": "Reviewed, not sealed",
    "sealed": "Sealed",
}
TITLES: Final = {
    "move_in": "Move-in condition report",
    "move_out": "Move-out condition report",
    "periodic": "Condition report of a periodic visit",
}
ANY_TITLE: Final = "Condition report"
NOT_ACKNOWLEDGED: Final = "nobody has said yet whether it was looked at"
FACTS: Final = {
    "kind": "Walk",
    "unit": "Unit",
    "date": "Date",
    "residents": "Resident",
    "inspector": "Walked and spoken by",
}
NOT_RECORDED: Final = "not recorded"
MONTHS: Final = tuple("January February March April May June July August September October November December".split())
PLAINER: Final = {
    "delamination": "layers coming apart",
    "failed_sealant": "sealant loose or missing",
    "mineral_deposit": "limescale or other mineral deposit",
    "misaligned": "out of line or off its track",
    "exposed_wiring": "bare or exposed wiring",
    "not_working": "does not work",
}
"""What the record calls by a word of the trade, as a resident would say it."""

PAGE: Final = {
    "clashes": "The sources disagree; a person has to say which is right:",
    "source": "source",
    "prepared_for": "This copy is for",
    "summary": "At a glance",
    "urgent": "Read this first",
    "safety": "Safety devices",
    "safety_note": (
        "“Works” means that it was heard or seen to work in the recording, at that moment only. "
        "Press every alarm’s test button once a month."
    ),
    "attention": "What needs attention",
    "attention_none": "Nothing was said to be wrong. That is no proof that nothing is.",
    "untested": "What was not tested",
    "untested_none": "Nothing was named as not tested. What was never spoken of was not tested either.",
    "silent": "What was not looked at or not spoken of",
    "silent_note": "Silence is never taken for good: nothing is known of the condition of these parts.",
    "silent_none": "Nothing is listed as not spoken of. What was not named is not recorded.",
    "marks": "What the marks mean",
    "number": "No.",
    "room": "Room",
    "part": "Part",
    "finding": "What was found",
    "state": "State",
    "time": "Time",
    "device": "Device",
    "outcome": "Outcome",
    "rooms": "Room by room",
    "empty": "Nothing in the recording was read as being about the unit, so this report lists no rooms.",
    "in_order": "In order",
    "also_in_order": "Otherwise",
    "not_spoken": "Not spoken of",
    "said": "Said",
    "unreviewed": "NOT REVIEWED",
    "keys": "Keys and things handed over",
    "keys_none": "The recording names nothing that was handed over.",
    "keys_what": "Thing",
    "keys_how": "As said",
    "keys_count": "Counted on receipt",
    "receipt": "I have received, or given back, the things listed above in the number that I have entered.",
    "advice": "Care and advice",
    "advice_none": "The recording holds no advice to the resident.",
    "advice_note": "These words were spoken on the walk for the resident. They add nothing to the lease.",
    "work": "Work to do",
    "work_resident": "Work for the resident",
    "work_none": "The recording names no work to be done.",
    "work_what": "What",
    "method": "How this report was made",
    "method_told": (
        "A person walked through the unit and spoke while recording. A program on their own computer wrote down the "
        "words and proposed the entries; it did not look at the pictures. Every entry rests on words that can be "
        "heard at the time given. Machines mishear: where an entry and the recording differ, the recording counts."
    ),
    "recordings": "Recordings and sources",
    "file": "File",
    "length": "Length",
    "recorded_at": "Recorded",
    "sha256": "SHA-256",
    "warnings": "What to know of this recording",
    "seal": "Seal",
    "seal_proves": (
        "What the seal proves: the record and the files it rests on have not been changed since it was sealed, "
        "provided that these digits are the ones that both sides were sent at the time. Only the sealed record "
        "itself can be checked; this print is a copy of it."
    ),
    "seal_not": (
        "What it does not prove: that the recording is genuine, that what was said is true, that nothing else was "
        "wrong, or when it was sealed (the time comes from the computer of the person who sealed it)."
    ),
    "left_out": "Not in this copy",
    "cautions": "Please mind",
    "sign": "Signatures",
    "sign_note": "Signing says that this report was received and read, not that everything in it is agreed.",
    "name": "Name",
    "signature": "Signature",
    "date": "Date",
    "for_manager": "For the manager",
    "for_resident": "Resident",
    "response": "The resident’s response",
    "response_note": (
        "Write down where you see it otherwise, and anything that is missing. Keep a copy, and send photos with the "
        "number of the entry."
    ),
    "response_days": "To be returned within ____ days (see your local law and your lease), by ____________ (date).",
    "agree": "Agree",
    "disagree": "Disagree",
    "remarks": "Remarks",
    "unread": "What was said and gave no entry",
    "reason": "Why",
    "page": "Page",
    "of": "of",
    "picture_missing": "Picture not shown",
}
