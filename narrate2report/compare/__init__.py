"""Two records of one unit to what became of every flaw between them. Pure: no files, nothing printed."""
