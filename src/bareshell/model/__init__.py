"""The model: the car as frozen dataclasses, the changes it can meet, and how they fold.

``Build`` is the one model of the car. A ``Change`` is one small typed fact; ``decide`` checks
it in full, ``fold`` plays a journal of entries into a build and trusts. Nothing here touches
a clock, a file or the web.
"""

from bareshell.model.build import Build as Build
from bareshell.model.decide import decide as decide
from bareshell.model.entry import Entry as Entry
from bareshell.model.entry import Standing as Standing
from bareshell.model.fold import FOLD_VERSION as FOLD_VERSION
from bareshell.model.fold import fold as fold
