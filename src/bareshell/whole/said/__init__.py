"""Ending a session in one minute: one typed or dictated line becomes changes to the build.

``understand`` reads the line and says how it took each part; what it is not sure of it asks,
and what it does not understand it keeps as a note. ``catching_up`` asks what happened after
weeks of silence. Nothing is guessed silently: every change comes with the sentence that a person
sees before it is kept.
"""
