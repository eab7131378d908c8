"""Statements to the resident: what is handed over, what to take care of, which rules hold."""
