"""Where a build is kept: the journal in SQLite, its wire form, its snapshots.

Only this room knows SQL. ``Journal`` adds and reads entries; ``wire`` turns a change into
JSON and back for ever; ``Present`` keeps the build as it stands now without folding the whole
journal each time.
"""

from bareshell.store.journal import Journal as Journal
from bareshell.store.journal import Row as Row
from bareshell.store.journal import Tip as Tip
