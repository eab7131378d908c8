"""Words that were heard wrong: which they may be, and which of them a sentence admits."""
