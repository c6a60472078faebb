"""The pages that keep the books of a build: Proofs, Shelf, Record, Car and its jobs."""

from __future__ import annotations

from fastapi import APIRouter

from bareshell.web.pages import (
    brakes,
    brakes_circuit,
    brakes_workshop,
    car,
    car_departures,
    car_sessions,
    car_supports,
    evidence,
    going_back,
    jobs,
    jobs_one,
    proofs,
    proofs_gates,
    proofs_one,
    record,
    shelf,
    shelf_away,
    shelf_fit,
    shelf_holdings,
    shelf_invoice,
    shelf_kits,
    shelf_labels,
    shelf_needs,
    shelf_ordering,
    shelf_orders,
    shelf_sizes,
)

ROUTERS: tuple[APIRouter, ...] = (
    brakes.router,
    brakes_workshop.router,
    brakes_circuit.router,
    proofs.router,
    proofs_one.router,
    proofs_gates.router,
    evidence.router,
    shelf.router,
    shelf_fit.router,
    shelf_sizes.router,
    shelf_invoice.router,
    shelf_ordering.router,
    shelf_labels.router,
    shelf_away.router,
    shelf_kits.router,
    shelf_needs.router,
    shelf_holdings.router,
    shelf_orders.router,
    record.router,
    car.router,
    car_supports.router,
    car_sessions.router,
    going_back.router,
    car_departures.router,
    jobs.router,
    jobs_one.router,
)
"""In the order in which they are asked."""
