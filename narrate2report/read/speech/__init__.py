"""A transcript to sentences, in clauses, with what was found in each."""
