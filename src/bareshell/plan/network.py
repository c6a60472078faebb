"""What comes before what, gathered from links, proofs and gates into one graph.

A proof owed before a cover is an edge from each job that proves it; a gate is a node of its own
without duration, so that a gate of forty needs and forty blocked jobs is eighty edges.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from bareshell.plan.body import body_ties
from bareshell.plan.problem import Gate, PlanJob, PlanProblem

__all__ = ["Edge", "EdgeKind", "Missing", "Network", "network"]

EdgeKind = Literal["after", "proof", "gate", "body"]


@dataclass(frozen=True, slots=True)
class Edge:
    """One node before another. Nodes are jobs by position, then gates.

    Parameters
    ----------
    before, after : int
        The nodes.
    wait_minutes : int
        Clock time between them. [min]
    stretch : bool
        Whether cold makes the wait longer.
    kind : {"after", "proof", "gate", "body"}
        Which rule asks for it.
    ref : str
        The proof, the gate or the body state.
    """

    before: int
    after: int
    wait_minutes: int = 0
    stretch: bool = False
    kind: EdgeKind = "after"
    ref: str = ""


@dataclass(frozen=True, slots=True)
class Missing:
    """A node that asks for something nobody can give.

    Parameters
    ----------
    node : int
        The job or gate that asks.
    kind : str
        ``"job"``, ``"proof"``, ``"gate"``: named but not in the problem; ``"no proof"``: not held
        and no job left that would prove it; ``"body"``: no job brings the body into that state.
    ref : str
        What was asked for.
    """

    node: int
    kind: Literal["job", "proof", "gate", "no proof", "body"]
    ref: str


@dataclass(frozen=True, slots=True)
class Network:
    """The whole graph.

    Parameters
    ----------
    jobs, gates : tuple
        The nodes, in this order.
    edges : tuple of Edge
        What comes before what.
    missing : tuple of Missing
        What could not be tied.
    """

    jobs: tuple[PlanJob, ...]
    gates: tuple[Gate, ...]
    edges: tuple[Edge, ...]
    missing: tuple[Missing, ...]

    @property
    def size(self) -> int:
        """How many nodes there are."""
        return len(self.jobs) + len(self.gates)

    def title(self, node: int) -> str:
        """Read a node out: a job's title, or the gate's."""
        if node < len(self.jobs):
            return f"'{self.jobs[node].title}'"
        return f"the {self.gates[node - len(self.jobs)].title} gate"

    def leading_out(self) -> list[list[Edge]]:
        """List the edges by the node they leave."""
        out: list[list[Edge]] = [[] for _ in range(self.size)]
        for edge in self.edges:
            out[edge.before].append(edge)
        return out

    def leading_in(self) -> list[list[Edge]]:
        """List the edges by the node they reach."""
        into: list[list[Edge]] = [[] for _ in range(self.size)]
        for edge in self.edges:
            into[edge.after].append(edge)
        return into

    def in_order(self) -> list[int]:
        """List the nodes so that each comes after all before it; those on a cycle are left out."""
        left = [0] * self.size
        for edge in self.edges:
            left[edge.after] += 1
        out = self.leading_out()
        order = [node for node in range(self.size) if not left[node]]
        for node in order:
            for edge in out[node]:
                left[edge.after] -= 1
                if not left[edge.after]:
                    order.append(edge.after)
        return order

    def downstream(self, nodes: Iterable[int]) -> set[int]:
        """Find every node that comes after any of these."""
        out = self.leading_out()
        found: set[int] = set()
        open_nodes = list(nodes)
        while open_nodes:
            for edge in out[open_nodes.pop()]:
                if edge.after not in found:
                    found.add(edge.after)
                    open_nodes.append(edge.after)
        return found


def network(problem: PlanProblem) -> Network:
    """Gather every "comes before" of a problem into one graph.

    Parameters
    ----------
    problem : PlanProblem
        Any problem; what cannot be tied is listed, not raised.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import Link, Way
    >>> from bareshell.plan.sessions import SessionSource
    >>> hour = (Way(1, 60, 60, 60),)
    >>> wax = PlanJob("wax", "Wax", "underbody", hour)
    >>> tank = PlanJob("tank", "Tank", "fuel", hour, after=(Link("wax", 1440),))
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax, tank), SessionSource())
    >>> [(edge.before, edge.after, edge.wait_minutes) for edge in network(plan).edges]
    [(0, 1, 1440)]
    """
    return _Tying(problem).network()


class _Tying:
    """Ties the references of one problem, keeping what cannot be tied."""

    def __init__(self, problem: PlanProblem) -> None:
        self.problem = problem
        self.job_at = {job.id: index for index, job in enumerate(problem.jobs)}
        self.gate_at = {
            gate.id: len(problem.jobs) + index for index, gate in enumerate(problem.gates)
        }
        self.proofs = {proof.id: proof for proof in problem.proofs}
        self.edges: list[Edge] = []
        self.missing: list[Missing] = []

    def network(self) -> Network:
        for node, job in enumerate(self.problem.jobs):
            for link in job.after:
                before = self.job_at.get(link.job_id)
                if before is None:
                    self.missing.append(Missing(node, "job", link.job_id))
                else:
                    self.edges.append(Edge(before, node, link.wait_minutes, link.stretch_with_cold))
            for proof_id in job.proofs_before:
                self._tie_proof(proof_id, node)
            for gate_id in job.gates_before:
                self._tie_gate(gate_id, node)
        for gate in self.problem.gates:
            self._tie_needs(gate)
        self._tie_bodies()
        return Network(
            self.problem.jobs, self.problem.gates, tuple(self.edges), tuple(self.missing)
        )

    def _tie_needs(self, gate: Gate) -> None:
        node = self.gate_at[gate.id]
        for job_id in gate.needs_jobs:
            self._tie_job(job_id, node, "gate", gate.id)
        for proof_id in gate.needs_proofs:
            self._tie_proof(proof_id, node)
        for job_id in gate.blocks:
            after = self.job_at.get(job_id)
            # A blocked job that is not here is finished, or of no concern to the plan.
            if after is not None and gate.id not in self.problem.jobs[after].gates_before:
                self._tie_gate(gate.id, after)

    def _tie_bodies(self) -> None:
        pairs = [(edge.before, edge.after) for edge in self.edges]
        ties = body_ties(self.problem, pairs, len(self.problem.jobs) + len(self.problem.gates))
        self.edges += [Edge(b, a, kind="body", ref=state) for b, a, state in ties.tied]
        self.missing += [Missing(node, "body", state) for node, state in ties.missing]

    def _tie_job(self, job_id: str, node: int, kind: EdgeKind, ref: str) -> None:
        before = self.job_at.get(job_id)
        if before is None:
            self.missing.append(Missing(node, "job", job_id))
        else:
            self.edges.append(Edge(before, node, kind=kind, ref=ref))

    def _tie_proof(self, proof_id: str, node: int) -> None:
        proof = self.proofs.get(proof_id)
        if proof is None:
            self.missing.append(Missing(node, "proof", proof_id))
        elif not proof.held:
            if not proof.proven_by:
                self.missing.append(Missing(node, "no proof", proof_id))
            for job_id in proof.proven_by:
                self._tie_job(job_id, node, "proof", proof_id)

    def _tie_gate(self, gate_id: str, node: int) -> None:
        before = self.gate_at.get(gate_id)
        if before is None:
            self.missing.append(Missing(node, "gate", gate_id))
        else:
            self.edges.append(Edge(before, node, kind="gate", ref=gate_id))
