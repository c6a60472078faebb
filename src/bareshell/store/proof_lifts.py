"""Bodies of proofs as they were first written, lifted to the form of today."""

from __future__ import annotations

from typing import Any

__all__ = ["lift_proof"]


def lift_proof(body: dict[str, Any]) -> dict[str, Any]:
    """Lift a proof: no job's work spent it.

    Examples
    --------
    >>> lift_proof({"proof": {"id": "tee-dry"}})
    {'proof': {'id': 'tee-dry', 'spent_by': []}}
    """
    return {"proof": {**body["proof"], "spent_by": []}}
