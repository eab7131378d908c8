"""Statements of what a component is like: flawed, sound, missing, painted."""
