"""What is written down of the brakes in words on a terminal: parts, proofs, needs, first use."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from bareshell.cli.brakes_text import problems_text
from bareshell.cli.common import heading, table

if TYPE_CHECKING:
    from bareshell.app.brakes_readings import ReadingForm
    from bareshell.whole.brake_circuit import CircuitView, ThingName, ThingView
    from bareshell.whole.brake_commission import CommissioningView
    from bareshell.whole.brake_held import CircuitHolds
    from bareshell.whole.brake_owed import OwedView
    from bareshell.whole.brake_pedal import PedalView
    from bareshell.whole.brake_yardsticks import YardsticksView


# --- parts and lines -----------------------------------------------------------------------------


def circuit_text(found: CircuitView) -> Iterator[str]:
    """List every part and line, and how much of each is known."""
    yield heading(found.title, found.role)
    for title, things in (("Parts", found.parts), ("Lines", found.lines)):
        yield heading(title, str(len(things)))
        yield from (f"  {line}" for line in table([_thing_row(one) for one in things]))
    trust = found.trust
    yield (
        f"Figures: {trust.measured} measured, {trust.marked} marked, {trust.data_sheet} from data "
        f"sheets, {trust.assumed} assumed; {trust.usual} taken as usual, {trust.missing} missing"
    )
    yield from problems_text(found.problems)


def _thing_row(one: ThingName) -> tuple[str, str, str, str]:
    known = f"{one.known} known"
    if one.missing:
        known += f", {one.missing} missing"
    where = f" ({one.wheel})" if one.wheel else ""
    return one.id, f"{one.kind}{where}", known, one.joins or one.title


def thing_text(found: ThingView) -> Iterator[str]:
    """Say everything that is known of one part or line, and what is not."""
    yield heading(found.title, f"{found.kind} in {found.system_title}")
    for one in found.figures:
        if one.said:
            yield f"  {found.id}.{one.name}: {one.said} [{one.trust}]"
        elif one.needed:
            usual = f"; taken as {one.usual}" if one.usual else "; nothing stands in for it"
            yield f"  {found.id}.{one.name}: not known{usual}. {one.how}"
    for choice in found.choices:
        if choice.chosen or choice.needed:
            options = f" ({' | '.join(choice.options)})" if choice.options else ""
            yield f"  {found.id}.{choice.name}: {choice.chosen or 'not said'}{options}"
    for side in found.sides:
        said = ", ".join(x for x in (side.thread, side.sex, side.seat, side.flare) if x)
        yield f"  joint at {side.at}: {said or 'not known'}"
    if found.note:
        yield f"  note: {found.note}"
    yield from problems_text(found.problems)


# --- readings and yardsticks ---------------------------------------------------------------------


def kinds_text(kinds: Mapping[str, str]) -> Iterator[str]:
    """List what can be read."""
    rows = [(kind.replace(" ", "-"), words) for kind, words in kinds.items()]
    yield from (f"  {line}" for line in table(rows))


def reading_text(form: ReadingForm) -> Iterator[str]:
    """Say what is asked for a kind of reading, and in what."""
    yield heading(form.kind.value, form.words)
    rows = [
        (one.name, one.words, f"in {one.unit}, such as {one.example}" if one.unit else "a figure")
        for one in form.figures
    ]
    rows += [(one.name, one.words, " | ".join(one.options) or "in words") for one in form.choices]
    yield from (f"  {line}" for line in table(rows))


def yardsticks_text(found: YardsticksView) -> Iterator[str]:
    """List the yardsticks, those that are chosen marked."""
    chosen = "nobody chose yet" if found.chosen is None else f"{len(found.chosen)} chosen"
    yield heading("Yardsticks", chosen)
    for family in found.families:
        yield heading(family)
        for one in found.yardsticks:
            if one.family != family:
                continue
            mark = "chosen" if one.chosen else ""
            because = f"; {one.because}" if one.because else ""
            yield f"  {mark:7} {one.id}: {one.asks}{because}"
            yield f"          {one.cite}"
    yield from (f"  not known any more: {name}" for name in found.lost)
    if not found.market:
        yield f"--market says which were meant for a car like this: {', '.join(found.markets)}"
    yield from (f"Mind: {words}" for words in found.cautions)


# --- proofs and needs ----------------------------------------------------------------------------


def owed_text(found: OwedView) -> Iterator[str]:
    """Say what the brakes owe in proof, and in what the record differs."""
    yield heading(f"{found.title}: proofs")
    for group in found.groups:
        counts = ", ".join(f"{count} {state}" for state, count in group.counts)
        yield f"  {group.title}: {counts}"
    groups: dict[tuple[str, str], list[str]] = {}
    for one in found.differences:
        more = f" ({one.words})" if one.words else ""
        groups.setdefault((one.what, one.title), []).append(f"{one.about or one.title}{more}")
    for (what, title), abouts in groups.items():
        yield heading(f"{what}: {title}", str(len(abouts)))
        yield from (f"  {about}" for about in abouts)
    if not found.differences:
        yield "The record asks for every proof of these brakes."
    yield from (f"It does not prove: {words}." for words in found.not_proved[:1])


def needs_text(found: OwedView) -> Iterator[str]:
    """Say what the brakes want, job by job."""
    yield heading(f"{found.title}: parts")
    rows = []
    for one in found.needs:
        short = f"{one.short} to find or order" if one.short else ""
        count = f"{one.quantity} x " if one.quantity > 1 else ""
        rows.append((one.comes, f"{count}{one.title}", one.job_title, one.state, short))
    yield from (f"  {line}" for line in table(rows))
    if found.without_job:
        yield f"Wanted by no job that this build has: {', '.join(found.without_job)}."
    if not found.needs_to_write:
        yield "The parts desk has everything that these brakes want."


# --- commissioning -------------------------------------------------------------------------------


def commission_text(found: CommissioningView) -> Iterator[str]:
    """Say what is done and what comes next, what to hold, how to press, how to bed."""
    yield heading(f"{found.title}: commissioning")
    for step in found.steps:
        mark = ">" if step.id == found.next_step else " "
        yield f"{mark} {step.number:2}. {step.state}: {step.words}"
        if step.state not in ("done", "left out"):
            yield from (f"        Mind: {words}" for words in step.cautions)
        yield from (f"        {words}" for words in step.says)
    for reservoir in found.reservoirs:
        there = reservoir.there_is_m3
        holds = "not measured" if there is None else f"{there * 1e6:.0f} ml"
        yield (
            f"  {reservoir.title}: worn linings take {reservoir.needed_m3 * 1e6:.0f} ml; "
            f"it holds {holds}"
        )
    yield heading("Graded holds", "dry joints are the proof, the gauge is context")
    if found.pipes_low_pa_k is not None and found.pipes_high_pa_k is not None:
        low, high = found.pipes_low_pa_k / 1e5, found.pipes_high_pa_k / 1e5
        yield f"  bare pipes, plugged: {low:.1f} to {high:.1f} bar for each degree"
    for circuit in found.holds:
        yield from _holds_text(circuit)
    yield from (f"Mind: {words}" for words in found.hold_cautions)
    yield from _pedal_text(found.pedal)
    yield from (f"Mind: {words}" for words in found.pedal_cautions)
    yield heading("Bedding", "the linings' own maker's series comes first")
    for series in found.bedding:
        yield f"  {series.id}: {series.words}"
        yield from (f"      {words}" for words in (series.said, series.because) if words)
    yield from (f"Mind: {words}" for words in found.bedding_cautions)
    yield heading("To keep for 50 and 500 miles")
    for kept in found.compared:
        values = "; ".join(f"{when} {_kept(value, kept.unit)}" for when, value in kept.values)
        yield f"  {kept.words}: {values or 'nothing yet'} (less than {kept.read_to} is no change)"
    yield from (f"It does not prove: {words}." for words in found.not_proved)


def _kept(value: float, unit: str) -> str:
    return f"{value * 1000:.0f} mm" if unit == "m" else f"{value:g}"


def _holds_text(circuit: CircuitHolds) -> Iterator[str]:
    yield heading(f"  {circuit.title}")
    rows = []
    for step in circuit.steps:
        shift = "not worked out"
        if step.low_pa_k is not None and step.high_pa_k is not None:
            low, high = step.low_pa_k / 1e5, step.high_pa_k / 1e5
            shift = f"{low:.1f} to {high:.1f} bar a degree"
        pressure, minutes = f"{step.pressure_pa / 1e5:.1f} bar", f"{step.minutes:g} min"
        rows.append((step.id, pressure, minutes, shift, step.look))
    yield from (f"    {line}" for line in table(rows))
    if circuit.because:
        yield f"    not worked out: {circuit.because}"
    for done in circuit.done:
        yield f"    {done.at:%d %b %Y} {done.state}: {done.joints} {done.gauge}"


def _pedal_text(found: PedalView) -> Iterator[str]:
    yield heading("Pedal test")
    asked = found.asked
    if asked is None:
        yield f"  what to expect is not worked out: {found.because}"
    else:
        light, rise = asked.light_m, asked.rise_m
        yield (
            f"  press {asked.light_force_n:.0f} N: {light[0] * 1000:.0f} to "
            f"{light[1] * 1000:.0f} mm; then {asked.firm_force_n:.0f} N: "
            f"{rise[0] * 1000:.0f} to {rise[1] * 1000:.0f} mm more, with no air in it"
        )
    for one in found.tests:
        yield f"  {one.at:%d %b %Y} {one.when}: {one.words} {one.next_step}"
        if one.since:
            yield f"      since the test before the road: {one.since} {one.since_next}"
