"""The zones of the car as sets, so that a row can add them up.

The wheel ends reach from the hub inwards to the frame, beam or axle that carries it; the front
and rear reach from the axle outwards, above and beneath. *Underneath* is what is left: the floor,
the tunnel and the sills between the axles. So work at an axle asks for its wheel ends, and only
work along the floor asks for underneath.
"""

from __future__ import annotations

from bareshell.model.position import Zone

UNDERNEATH = frozenset({Zone.UNDERNEATH})
FRONT_ENDS = frozenset({Zone.WHEEL_ENDS_FRONT})
REAR_ENDS = frozenset({Zone.WHEEL_ENDS_REAR})
BOTH_ENDS = FRONT_ENDS | REAR_ENDS
BAY = frozenset({Zone.ENGINE_BAY})
CABIN = frozenset({Zone.CABIN})
BOOT = frozenset({Zone.BOOT})
DOORS = frozenset({Zone.DOORS})
ROOF = frozenset({Zone.ROOF})
FRONT = frozenset({Zone.FRONT})
REAR = frozenset({Zone.REAR})
BODY = BAY | CABIN | BOOT | DOORS | ROOF | FRONT | REAR
NO_DOORS = BODY - DOORS
EVERYWHERE = BODY | BOTH_ENDS | UNDERNEATH
