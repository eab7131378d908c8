"""From the sound of a walk to its words, each with its own time.

    clip.blocks(tell) ─windows─▶ Window ─whisper─▶ raw words ─onset─▶ Hearing ─stretches─▶ Transcript
                     │                                       │
                   silero                                  store (kept on disk, window by window)

`listening.listen` runs the line. Only windows.py holds sound, one window at a time, so memory does not grow
with the recording. whisper.py, aligner.py and silero.py alone know faster-whisper, which is loaded
only when needed. `weighing.weigh` goes over passages of a clip once more, for the reading: it adds no word.
"""
