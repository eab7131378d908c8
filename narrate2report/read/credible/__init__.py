"""Whether what the rules drafted is credible: how it is worded, weighed as narrations with marks taught it."""
