"""The demo: an invented car, about sixty percent through, told as a record that never ages.

A pure generator: from the day on which it is made it tells every entry of a year's work, each
with the time at which it happened and the time at which it was written down. Nothing outside
this room knows its names; a build that somebody else began is read in just the same way.
"""

from bareshell.demo.story import demo_story as demo_story
from bareshell.demo.told import Told as Told
