"""Bodies of proofs as they were first written, lifted to the form of today."""

from __future__ import annotations

from typing import Any, Final

__all__ = ["lift_proof", "lift_proof_fixings"]


def lift_proof(body: dict[str, Any]) -> dict[str, Any]:
    """Lift a proof: no job's work spent it.

    Examples
    --------
    >>> lift_proof({"proof": {"id": "tee-dry"}})
    {'proof': {'id': 'tee-dry', 'spent_by': []}}
    """
    return {"proof": {**body["proof"], "spent_by": []}}


_LEFT_FOR_LATER: Final = "left for ride height"
_RIDE_HEIGHT: Final = "bush-torque"


def lift_proof_fixings(body: dict[str, Any]) -> dict[str, Any]:
    """Lift a proof of the second form: it named no bolts, and told by its title what it only nips.

    Examples
    --------
    >>> lift_proof_fixings({"proof": {"id": "u", "title": "Bolts left for ride height"}})["proof"]
    {'id': 'u', 'title': 'Bolts left for ride height', 'fixings': [], 'nipped_until': 'bush-torque'}
    >>> lift_proof_fixings({"proof": {"id": "u", "title": "Dry"}})["proof"]["nipped_until"] is None
    True
    """
    proof = body["proof"]
    left = _LEFT_FOR_LATER in str(proof.get("title", "")).lower()
    return {"proof": {**proof, "fixings": [], "nipped_until": _RIDE_HEIGHT if left else None}}
