"""bareshell: plan, prove and record putting a car back together from a painted bare shell.

Import from the rooms, so that the subject stays visible at the call::

    from bareshell.units import parse_length
    from bareshell.sources import source

``ARCHITECTURE.md`` draws the house: which room does what, and who may import whom.
"""

__version__ = "0.1.0"
