"""From a decided record to a sealed one, and from a sealed one to everything in it that no longer matches."""
