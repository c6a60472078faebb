"""The build file: the state of a build as TOML that a person can read, edit and keep.

``read_build_file`` checks a file and says each problem with its line; ``compare`` says what
importing it would change, in sentences and as changes; ``write_build_file`` writes one, into a
person's own file without touching what has not changed. What every key means is in
``docs/build-file.md``.
"""

from bareshell.io.build_file.compare import Comparison as Comparison
from bareshell.io.build_file.compare import Difference as Difference
from bareshell.io.build_file.compare import compare as compare
from bareshell.io.build_file.read import Parsed as Parsed
from bareshell.io.build_file.read import read_build_file as read_build_file
from bareshell.io.build_file.write import write_build_file as write_build_file
