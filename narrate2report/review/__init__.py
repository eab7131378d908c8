"""From proposed entries to decided ones: a person's decisions, kept in the journal before they are shown as kept."""
