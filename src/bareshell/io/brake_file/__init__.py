"""The brake file: the brakes of one car as TOML that a person can write in a few minutes.

It stands alone, with no build: ``read_brake_file`` reads it and names every problem with its
line, ``write_brake_file`` writes it. A starter may be named in it, and then only what differs is
written. What every key means is in ``docs/brake-file.md``.
"""

from bareshell.io.brake_file.read import BrakeFile as BrakeFile
from bareshell.io.brake_file.read import read_brake_file as read_brake_file
from bareshell.io.brake_file.write import shortest_brake_file as shortest_brake_file
from bareshell.io.brake_file.write import write_brake_file as write_brake_file
from bareshell.io.brake_file.write import write_brake_system as write_brake_system
