"""Transcript and vocabulary in, entries with their reasons out. Nothing here touches a recording."""
