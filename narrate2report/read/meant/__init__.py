"""How a sentence is meant: said of this place now, or only talked about; and what only looks like a flaw."""
