"""Folding: the state of a build is its journal, played from the start.

``FOLD_VERSION`` goes up whenever a fold changes what it makes of the same entries, so that
snapshots made by an older one are thrown away.
"""

from bareshell.model.fold.draft import Draft as Draft
from bareshell.model.fold.replay import FOLD_VERSION as FOLD_VERSION
from bareshell.model.fold.replay import fold as fold
from bareshell.model.fold.replay import play as play
from bareshell.model.fold.replay import plays as plays
from bareshell.model.fold.replay import withdrawn_ids as withdrawn_ids
