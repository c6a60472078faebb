"""What a piece of work spent of the proofs that stood, in a sentence."""

from __future__ import annotations

from collections import Counter

from bareshell.model import Build
from bareshell.model.proof import ProofState
from bareshell.model.standing import proof_standings

_STOOD = (ProofState.HELD, ProofState.BEGUN, ProofState.SUBSTITUTED)


def spent_by_work(before: Build, after: Build) -> tuple[str, ...]:
    """Say which proofs work spent: bleeding, or taking off what they were about.

    Parameters
    ----------
    before, after : Build
        The build without and with the work.

    Returns
    -------
    tuple of str
        One sentence; none when nothing was spent.

    Examples
    --------
    >>> spent_by_work(Build(), Build())
    ()
    """
    was, now = proof_standings(before), proof_standings(after)
    spent = [
        key
        for key, standing in now.items()
        if key in was
        and was[key].state in _STOOD
        and standing.state in (ProofState.SPENT, ProofState.COVERED)
        and standing.words != was[key].words
        and before.proofs[key].events == after.proofs[key].events
    ]
    if not spent:
        return ()
    titles = Counter(after.proofs[key].proof.title for key in spent)
    named = "; ".join(
        f"'{title}'" + (f", {count} of them" if count > 1 else "")
        for title, count in titles.items()
    )
    return (f"Spent with it, to be shown again: {named}.",)
