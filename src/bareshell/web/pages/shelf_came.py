"""What a delivery did to the plan: the jobs of the next session, last days, the road."""

from __future__ import annotations

from datetime import timedelta
from typing import Final

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app.door import Door
from bareshell.app.goods_in import goods_plan
from bareshell.web.desk import door_of
from bareshell.web.plan_desk import PROGRAM_PATIENCE_S, PlanDesk, StillWorking
from bareshell.web.twin import PageRouter, page, wants_json
from bareshell.whole.goods_plan import GoodsPlan

router = PageRouter()

SOON_S: Final = 1.5
"""How long the page of an order waits for it; it links to it otherwise. [s]"""

FRESH: Final = timedelta(days=2)
"""For so long after it came, the page of an order shows it without being asked."""


@router.page("/orders/{order_id}/plan")
def came(request: Request, order_id: str) -> Response:
    """Show what the last delivery on an order did to the plan."""
    door = door_of(request)
    desk = getattr(request.app.state, "plan_desk", None)
    if isinstance(desk, PlanDesk):
        patience = PROGRAM_PATIENCE_S if wants_json(request) else None
        found = desk.goods(door, order_id, wait_s=patience)
    else:
        found = goods_plan(door, order_id)
    return page(request, "shelf/came.html", found)


def fresh_plan(request: Request, door: Door, order_id: str) -> GoodsPlan | None:
    """What a delivery of the last days did to the plan, if that is known within a moment."""
    desk = getattr(request.app.state, "plan_desk", None)
    deliveries = door.build().orders[order_id].deliveries
    if not isinstance(desk, PlanDesk) or not deliveries:
        return None
    (entry,) = door.entries(after=deliveries[-1].seq - 1, limit=1)
    if door.now() - entry.recorded_at > FRESH:
        return None
    try:
        return desk.goods(door, order_id, wait_s=SOON_S)
    except StillWorking:
        return None
