"""The value types that every stage starts from and writes, and the files they live in."""
