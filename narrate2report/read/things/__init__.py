"""Which component is spoken of, and what is said with it: where, how many, how large."""
