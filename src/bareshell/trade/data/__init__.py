"""The starter network as data: one module for each stretch of the work, rows in its order."""

from bareshell.trade.data import (
    body,
    brake_pipes,
    cabin,
    commissioning,
    cooling,
    doors,
    engine_bench,
    engine_in,
    exhaust_air,
    fuel,
    lamps_power,
    papers,
    road,
    shell,
    steering,
    suspension,
    wet_brakes,
    wheel_brakes,
    wiring,
)
from bareshell.trade.row import Row

ROWS: tuple[Row, ...] = (
    *papers.ROWS,
    *shell.ROWS,
    *brake_pipes.ROWS,
    *fuel.ROWS,
    *wiring.ROWS,
    *cooling.ROWS,
    *suspension.ROWS,
    *steering.ROWS,
    *wheel_brakes.ROWS,
    *doors.ROWS,
    *body.ROWS,
    *engine_bench.ROWS,
    *engine_in.ROWS,
    *exhaust_air.ROWS,
    *cabin.ROWS,
    *lamps_power.ROWS,
    *wet_brakes.ROWS,
    *commissioning.ROWS,
    *road.ROWS,
)
"""Every job of the trade, both drive layouts and every option together."""
