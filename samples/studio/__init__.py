"""Draws, speaks and films the invented flat of the samples."""
