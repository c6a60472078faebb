"""What a person does: one function for each, through one door.

Each use case takes a ``Door`` (and with it the clock and new ids), decides, writes changes
down and reads the build. Pages and commands call these and nothing beneath.
"""
