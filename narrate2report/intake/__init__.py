"""What the inspector brings: recordings and transcripts, checked before anything else is done with them.

files ──gather──▶ Clips (recordings that can be listened to) or a Transcript (already words)

Knows containers (PyAV) and caption formats. Leaves the understanding of sound to listening.
"""
