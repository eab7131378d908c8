"""Statements of work to come: what, on which component, by whom."""
