"""How far the brakes' answers can be trusted, in words on a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from bareshell.cli.brakes_text import missing_text, not_proved_text
from bareshell.cli.common import counted, heading, table

if TYPE_CHECKING:
    from bareshell.whole.brake_trust import TrustedAnswer, TrustView


def trust_text(found: TrustView) -> Iterator[str]:
    """Say what to measure first, then each answer with its share and worst combination."""
    inputs = counted(found.unknowns, "input with a range", "inputs with a range")
    yield heading(f"{found.title}: how far to trust it", f"{found.count} combinations, {inputs}")
    if found.because:
        yield f"Not worked out: {found.because}"
    yield from missing_text(found.missing)
    if found.measure_first:
        yield heading("Measure first", found.measure)
    for place, one in enumerate(found.measure_first, 1):
        yield f"  {place}. {one.words} ({one.range_said})"
        yield f"     {one.advice}"
        yield f"     over all answers, by how open each is: {100 * one.share:.0f} per cent"
    if not found.yardsticks_chosen:
        yield "No yardsticks are chosen yet: name some with --yardstick, or pick the build's."
    for kind, title in (("yardstick", "Yardsticks"), ("question", "And besides")):
        listed = [one for one in found.answers if one.kind == kind]
        if listed:
            yield heading(title, "" if kind == "question" else "meeting one here approves nothing")
        for answer in listed:
            yield from _answer(answer)
    if found.spans:
        yield heading("How far figures go", f"in 90 of 100 of {found.spans_of} combinations")
        yield from (f"  {row}" for row in table([(one.words, one.said) for one in found.spans]))
    yield from (f"Mind: {words}" for words in found.cautions)
    yield from not_proved_text(found.not_proved)


def _answer(one: TrustedAnswer) -> Iterator[str]:
    asks = f": {one.asks}" if one.asks != one.title else ""
    yield f"  {one.title}{asks}"
    because = f"; {one.because}" if one.because else ""
    worst = f"; the worst {one.worst}" if one.worst else ""
    yield f"      {one.share_words}{worst}{because}"
    if one.worst_inputs:
        spelled = one.worst_inputs[: max(len(one.settles), 1)]
        told = ", ".join(f"{each.path} {each.said}" for each in spelled)
        yield f"      the worst with {told}"
    if one.settles:
        yield f"      measure: {one.settles[0].words}; {one.settles[0].advice}"
