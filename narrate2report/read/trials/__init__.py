"""Statements of what was tried, with what came of it, and of what was left alone."""
