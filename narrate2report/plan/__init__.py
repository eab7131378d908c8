"""Before the walk: a unit file, the usual words and the last record become a prompt card. All of it is pure."""
