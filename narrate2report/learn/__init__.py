"""What reviews teach: words that the reading did not know, proposed with what speaks for them. All of it pure."""
