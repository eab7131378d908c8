"""Transcript and vocabulary in, entries with their reasons out. Nothing here touches a recording.

    lexis ▶ speech ▶ misheard ▶ drafts ▶ walk ▶ things ▶ meant ▶ state ▶ trials ▶ work ▶ resident ▶ makeup ▶ across

Each folder is a rung of the ladder that `reading` climbs with every sentence, and imports only from itself and from
the rungs before it.
"""
