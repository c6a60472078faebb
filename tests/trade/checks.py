"""What must hold of every starter network, whatever was left out; oracles from networkx."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import UTC, datetime
from itertools import product

import networkx as nx

from bareshell.model import Build
from bareshell.model.car import OPTIONAL_SYSTEMS, Layout
from bareshell.model.position import Place, Support, SupportKind, Wheels
from bareshell.trade.answers import read_answers
from bareshell.trade.beginning import first_changes
from bareshell.trade.network import (
    END_JOB,
    OPTIONS,
    ROAD_JOB,
    START_JOB,
    WHEELS_JOB,
    Starter,
    starter,
)
from bareshell.trade.supports import ON_ITS_WHEELS, default_supports, suits
from tests.stories import build_of

Case = tuple[Layout, frozenset[str], frozenset[str]]
ALL = frozenset(OPTIONAL_SYSTEMS)
NAMED = (
    SupportKind.STANDS,
    SupportKind.SCISSOR_LIFT,
    SupportKind.TWO_POST_LIFT,
    SupportKind.FOUR_POST_LIFT,
    SupportKind.PIT,
)


AT = datetime(2031, 3, 5, 20, 0, tzinfo=UTC)
"""A Wednesday evening on which invented cars begin."""

BARE = {
    "name": "the bare shell",
    "layout": "rear",
    "standing": "stands",
    "engine": "out",
    "glass": "out",
    "pedal": "nothing",
}
FAR = {
    "name": "the far one",
    "layout": "front",
    "standing": "wheels",
    "engine": "in",
    "glass": "in",
    "pedal": "hard",
}


def begun(said: dict[str, str]) -> Build:
    """Begin a build in memory, each change decided on what the ones before it made."""
    return build_of(first_changes(read_answers(said), AT, "Europe/London"))


def done_in(build: Build) -> set[str]:
    """The jobs that are taken for done."""
    return {key for key, record in build.jobs.items() if record.state.is_done}


def plain_cases() -> Iterator[Case]:
    """Both layouts, with and without the option: everything, each system absent, nothing."""
    for layout, options in product(Layout, (frozenset(), frozenset(OPTIONS))):
        yield layout, ALL, options
        yield layout, frozenset(), options
        for absent in OPTIONAL_SYSTEMS:
            yield layout, ALL - {absent}, options


def job_graph(network: Starter) -> nx.DiGraph[str]:
    """The jobs with an edge from each predecessor."""
    graph: nx.DiGraph[str] = nx.DiGraph()
    for job in network.jobs:
        graph.add_node(job.id)
        graph.add_edges_from((before, job.id) for before in job.after)
    return graph


def waiting_graph(network: Starter) -> nx.DiGraph[str]:
    """Everything that waits for something: jobs, proofs before covers, gates, temps.

    A cycle in it is a garage in which nobody can do anything about it.
    """
    graph = job_graph(network)
    for proof in network.proofs:
        shown = (proof.proven_by,) if proof.proven_by else proof.made_by
        graph.add_edges_from((job, f"proof {proof.id}") for job in (*shown, *proof.made_by))
        graph.add_edges_from((f"proof {proof.id}", cover) for cover in proof.covered_by)
        graph.add_edges_from((f"proof {proof.id}", f"gate {gate}") for gate in proof.gates)
    for temp in network.temps:
        if temp.cleared_by:
            graph.add_edge(temp.cleared_by, f"gate {temp.gate}")
    for gate in network.gates:
        graph.add_edges_from((f"gate {before}", f"gate {gate.id}") for before in gate.after)
        graph.add_edges_from((job, f"gate {gate.id}") for job in gate.needs_jobs)
        graph.add_edges_from((f"gate {gate.id}", job) for job in gate.blocks)
    return graph


def check_network(layout: Layout, systems: Collection[str], options: Collection[str]) -> Starter:
    """Assert all that must hold of one network, and return it."""
    network = starter(layout, systems, options)
    jobs = {job.id: job for job in network.jobs}
    assert len(jobs) == len(network.jobs)
    graph = job_graph(network)
    assert set(graph) == set(jobs), "a predecessor that is no job"
    assert nx.is_directed_acyclic_graph(graph)
    assert nx.is_directed_acyclic_graph(waiting_graph(network)), nx.find_cycle(
        waiting_graph(network)
    )
    assert [j for j in graph if graph.in_degree(j) == 0] == [START_JOB]
    assert [j for j in graph if graph.out_degree(j) == 0] == [END_JOB]
    assert ROAD_JOB in jobs
    _check_proofs(network, graph, jobs.keys())
    _check_temps(network, graph, jobs.keys())
    _check_gates_and_needs(network, jobs.keys())
    return network


def _check_proofs(network: Starter, graph: nx.DiGraph[str], jobs: Collection[str]) -> None:
    gates = {gate.id for gate in network.gates}
    assert len({proof.id for proof in network.proofs}) == len(network.proofs)
    for proof in network.proofs:
        named = {*proof.made_by, *proof.covered_by} | ({proof.proven_by} - {None})
        assert proof.made_by
        assert named <= set(jobs), proof
        assert set(proof.gates) <= gates
        shown = (proof.proven_by,) if proof.proven_by else proof.made_by
        for cover in proof.covered_by:
            for job in shown:
                assert nx.has_path(graph, job, cover), f"{proof.id}: {job} not before {cover}"
            for maker in proof.made_by:
                assert nx.has_path(graph, maker, cover), f"{proof.id}: {maker} not before {cover}"


def _check_temps(network: Starter, graph: nx.DiGraph[str], jobs: Collection[str]) -> None:
    gates = {gate.id for gate in network.gates}
    assert len({temp.id for temp in network.temps}) == len(network.temps)
    for temp in network.temps:
        assert temp.raised_by is not None
        assert temp.raised_by in jobs
        assert temp.gate in gates
        if temp.cleared_by is not None:
            assert nx.has_path(graph, temp.raised_by, temp.cleared_by), temp


def _check_gates_and_needs(network: Starter, jobs: Collection[str]) -> None:
    assert len(network.gates) == 10
    known: set[str] = set()
    for gate in network.gates:
        assert set(gate.after) <= known, "gates stand in an order in which they can be added"
        known.add(gate.id)
        assert {*gate.needs_jobs, *gate.blocks} <= set(jobs)
    assert len({need.id for need in network.needs}) == len(network.needs)
    assert {need.job for need in network.needs} <= set(jobs)
    assert {job.twin for job in network.jobs} - {None} <= set(jobs)


def check_reach(network: Starter, supports: tuple[Support, ...]) -> None:
    """Assert that every job can be done on one of these supports, and when it comes.

    Nothing can stand on its wheels before it has any, so what does not come after that day
    must be reachable from supports that need none.
    """
    graph = job_graph(network)
    rolls = set(graph)
    if WHEELS_JOB in rolls:
        later: set[str] = nx.descendants(graph, WHEELS_JOB)
        rolls = later | {WHEELS_JOB}
    for job in network.jobs:
        fit = [support for support in supports if suits(job, support)]
        assert fit, f"{job.id} cannot be reached"
        if job.place is Place.CAR and job.id not in rolls and job.wheels is not Wheels.LOADED:
            assert any(support.kind not in ON_ITS_WHEELS for support in fit), job.id


def garages() -> Iterator[tuple[Support, ...]]:
    """Every garage that can be named: nothing, each kind alone, and every pair."""
    yield default_supports(())
    for kind in NAMED:
        yield default_supports([kind])
    for one, other in product(NAMED, NAMED):
        if one < other:
            yield default_supports([one, other])
