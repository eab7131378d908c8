"""Drafts of entries, and what becomes of them: ids, evidence, merging, withdrawals."""
