"""What a need is relied on for, what it may cost and what is asked of it, in words."""

from __future__ import annotations

from bareshell.model.duty import Duty
from bareshell.model.part import Guess, Need
from bareshell.parts import Question, questions
from bareshell.parts.questions import duty_questions

__all__ = ["before_ordering", "duty_words", "guess_words"]


def before_ordering(need: Need) -> tuple[Question, ...]:
    """Ask for everything that nobody knows of a need: its sizes, and of a fixing its duty.

    Examples
    --------
    >>> from bareshell.model.spec import SplitPinSpec
    >>> [one.label for one in before_ordering(Need("n", "Split pin", "j", spec=SplitPinSpec()))]
    ['diameter', 'length']
    """
    asked = questions(need.spec)
    if need.fixing and need.spec.kind in ("bolt", "pin"):
        return (*asked, *duty_questions(need.duty))
    nobody_said = need.duty is None or need.duty.load_path is None
    if need.fixing and need.spec.kind == "split pin" and nobody_said:
        return (*asked, *duty_questions(None))  # no load crosses it, but much hangs on it
    return asked


def duty_words(duty: Duty | None) -> str:
    """Say what is relied on a fixing in one line; empty when nobody said.

    Examples
    --------
    >>> from bareshell.model.duty import LoadPath
    >>> duty_words(Duty(LoadPath.HANDBRAKE, load_n=1500.0, shear_planes=2, side_gap_m=0.0005))
    'handbrake, 1500 N, double shear, gap 0.5 mm'
    """
    if duty is None:
        return ""
    said = [duty.load_path.value if duty.load_path else "nobody said what"]
    if duty.load_n is not None:
        said.append(f"{duty.load_n:.0f} N")
    if duty.shear_planes is not None:
        said.append("single shear" if duty.shear_planes == 1 else "double shear")
    lengths = (("ply", duty.fork_ply_m), ("eye", duty.eye_ply_m), ("gap", duty.side_gap_m),
               ("hole", duty.hole_m))  # fmt: skip
    said += [f"{name} {value * 1000:.4g} mm" for name, value in lengths if value is not None]
    if duty.seat is not None:
        said.append(f"on {duty.seat}")
    if duty.lubrication is not None:
        said.append(f"{duty.lubrication} when tightened")
    if duty.turns is not None:
        said.append("something turns on it" if duty.turns else "it stays still")
    return ", ".join(said)


def guess_words(guess: Guess | None) -> str:
    """Say what a need may cost; empty when nobody said.

    Examples
    --------
    >>> from decimal import Decimal
    >>> from bareshell.model.part import Money
    >>> guess_words(Guess(Money(Decimal("4"), "GBP"), Money(Decimal("7.50"), "GBP")))
    '4 to 7.50 GBP'
    """
    if guess is None:
        return ""
    low, high = guess.low.amount, guess.high.amount
    span = f"{low:f}" if low == high else f"{low:f} to {high:f}"
    return f"{span} {guess.low.currency}"
