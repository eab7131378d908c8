"""Many walks at once: what lies below a folder, in which state, and a search over all of it."""
