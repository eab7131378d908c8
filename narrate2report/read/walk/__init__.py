"""Where the walk is: which room is entered, or only spoken of."""
