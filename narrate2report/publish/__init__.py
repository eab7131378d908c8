"""From any record to something to look at."""
