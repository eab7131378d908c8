"""What can go wrong that the person at the keyboard can act on.

NarrateError                one clear line on stderr, nothing written
├── BadInput            2   a recording or transcript that cannot be used
├── BadVocabulary       2   a mistake in vocab/, with file and line
├── BadUnit             2   a mistake in a unit file or a table of one's own, with file and line
├── CannotSettle        2   something without which no settlement can be worked out
├── NoRoom              2   the disk is full: what was kept before stays
├── ModelMissing        2   no model to listen with, or one that fails its check
├── BrokenRecord        2   a findings or transcript file that is not what it should be
└── CannotDecide        2   a decision that the record does not allow

Our own mistakes are plain Python exceptions and never one of these.
"""

from __future__ import annotations

import errno


class NarrateError(Exception):
    """Something the person at the keyboard can act on; its text says what and what to do next."""

    exit_code = 2


class BadInput(NarrateError):
    """A recording or transcript cannot be used: it says which and why."""


class NoRoom(NarrateError):
    """Something could not be written because the disk, or one's share of it, is full; earlier results are kept."""


FULL = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG})
"""The system's numbers for a disk, a quota or a largest file size that is used up."""


class BadVocabulary(NarrateError):
    """A vocabulary file has a mistake: it says file, line and what was expected there."""


class BadUnit(NarrateError):
    """A unit file, or a table of one's own beside it, has a mistake: it says file, line and what was expected there."""


class CannotSettle(NarrateError):
    """A settlement cannot be worked out as things stand: it says what is missing or does not fit, by name."""


class ModelMissing(NarrateError):
    """No usable speech or language model: it says how to get one."""


class BrokenRecord(NarrateError):
    """A file that this program wrote, or should have written, does not hold what it must."""


class CannotDecide(NarrateError):
    """A decision that the record as it stands does not allow: it says why, and nothing is written."""
