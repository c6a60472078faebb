"""Changes to proofs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from bareshell.model.changes.base import Change, register
from bareshell.model.proof import Proof, Reading


@register
@dataclass(frozen=True, slots=True)
class ProofSet(Change):
    """A proof is owed; added or corrected."""

    KIND: ClassVar[str] = "proof-set"
    VERSION: ClassVar[int] = 3

    proof: Proof

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"proof:{self.proof.id}"


@register
@dataclass(frozen=True, slots=True)
class ProofDropped(Change):
    """A proof is not asked for any more: what it was about is not on the car."""

    KIND: ClassVar[str] = "proof-dropped"

    proof_id: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"proof:{self.proof_id}"


@register
@dataclass(frozen=True, slots=True)
class ProofBegun(Change):
    """A proof that takes time was begun (an overnight hold)."""

    KIND: ClassVar[str] = "proof-begun"

    proof_id: str
    readings: tuple[Reading, ...] = ()
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"proof:{self.proof_id}"


@register
@dataclass(frozen=True, slots=True)
class ProofHeld(Change):
    """It was shown to be right: by whom, with which figures."""

    KIND: ClassVar[str] = "proof-held"

    proof_id: str
    readings: tuple[Reading, ...] = ()
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"proof:{self.proof_id}"


@register
@dataclass(frozen=True, slots=True)
class ProofFailed(Change):
    """It was shown not to be right."""

    KIND: ClassVar[str] = "proof-failed"

    proof_id: str
    readings: tuple[Reading, ...] = ()
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"proof:{self.proof_id}"


@register
@dataclass(frozen=True, slots=True)
class ProofSpent(Change):
    """Something disturbed what was proved."""

    KIND: ClassVar[str] = "proof-spent"

    proof_id: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"proof:{self.proof_id}"


@register
@dataclass(frozen=True, slots=True)
class ProofUncovered(Change):
    """What hid it was taken away, so that it can be seen again."""

    KIND: ClassVar[str] = "proof-uncovered"

    proof_id: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"proof:{self.proof_id}"


@register
@dataclass(frozen=True, slots=True)
class ProofSubstituted(Change):
    """A thing that lies hidden was given a named substitute proof."""

    KIND: ClassVar[str] = "proof-substituted"

    proof_id: str
    name: str
    readings: tuple[Reading, ...] = ()
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"proof:{self.proof_id}"
