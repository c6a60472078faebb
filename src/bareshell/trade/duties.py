"""What the fixings of the starter network are relied on for, where the job makes it plain.

A fit or a stand-in is judged by what gives way with it: where a job can only be about the pedal,
the steering or a caliper, nobody should have to say so, and nothing should be offered for the time
being until somebody has. Common practice, no source; the owner can change every one of them. What
is not named here (a trial nut, a plug of a test) stays unknown, and is asked for.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from typing import Final

from bareshell.model.duty import Duty, LoadPath, Seat

__all__ = ["duty_of", "named"]

_PIN: Final = Duty(shear_planes=2, turns=True)
_STILL: Final = Duty(turns=False)

_PATHS: Final[Mapping[LoadPath, str]] = {
    LoadPath.PEDAL: """
        pedal-box.pedal-bushes pedal-box.clevis-pins-for-the-pedals
        pedal-box.split-pins-for-the-pedals mc-bench.brake-master-cylinder
        mc-fit.cylinder-flange-nuts""",
    LoadPath.STEERING: """
        ball-joints.ball-joint-shims ball-joints.ball-joint-split-pins uprights.ball-joint-nuts
        uprights.split-pins-for-the-uprights rack-fit.rack-clamps-and-bolts
        column-fit.column-bushes column-fit.pinch-bolts-and-lock-nuts
        column-fit.shear-bolts-of-the-steering-lock track-rods.track-rod-nuts
        track-rods.track-rod-split-pins col-switches.steering-wheel-nut""",
    LoadPath.CALIPER: """
        caliper-bench.caliper-seals caliper-bench.caliper-pistons caliper-bench.bleed-screws
        pin-spec.pad-pins pin-spec.pad-pin-clips pin-spec.pad-pin-split-pins disc-fit.disc-bolts
        caliper-fit.caliper-bolts caliper-fit.pad-pins-and-clips-as-settled""",
    LoadPath.HANDBRAKE: """
        hb-cables.handbrake-cables hb-cables.clevis-pins-for-the-handbrake
        hb-cables.split-pins-for-the-handbrake hb-connect.clevis-pins-at-the-wheels
        hb-connect.split-pins-at-the-wheels""",
    LoadPath.SUSPENSION: """
        bushes.suspension-bushes front-frame.front-frame-mount-bolts
        front-arms.front-arm-bolts-and-lock-nuts front-springs.front-damper-lock-nuts
        anti-roll.anti-roll-bar-clamps-and-bolts rear-beam-fwd.rear-beam-bolts-and-lock-nuts
        rear-springs.rear-spring-bushes rear-springs.rear-spring-and-damper-bolts
        axle-fit-rwd.u-bolts-and-lock-nuts""",
    LoadPath.WHEEL: """
        wheel-fixings.wheel-nuts-or-bolts hub-dummy-fwd.long-bolts-and-thick-washers
        rear-hubs-fwd.rear-stub-nuts driveshafts-fwd.new-hub-nuts hubnut-fwd.hub-nut-split-pins
        front-hubs.front-wheel-bearings rear-hubs-fwd.rear-wheel-bearings""",
    LoadPath.BELT: """
        belt-anchors.belt-anchor-bolts belt-anchors.belt-spacers-and-waved-washers
        seats-fit.seat-bolts-and-spacers""",
    LoadPath.DRIVE: """
        clutch-line.clutch-clevis-pin clutch-line.clutch-split-pin slave.slave-clevis-pin
        throttle.throttle-and-choke-cables throttle.return-springs-and-nipples
        engine-top.head-bolts-or-studs engine-dress.manifold-studs-and-nuts
        clutch-fit.flywheel-bolts-and-lock mate.dowels mate.housing-bolts
        engine-install-fwd.power-unit-mount-bolts engine-install-rwd.engine-mount-bolts
        mounts.mount-lock-nuts gearbox-mount-rwd.crossmember-bolts
        propshaft-rwd.propshaft-bolts-and-lock-nuts halfshafts-rwd.half-shaft-collars
        linkage-fwd.roll-pins fi-fit.manifold-studs-and-locking-plates""",
    LoadPath.FUEL: """
        pipe-bay.pipe-nuts-for-the-bay pipe-bay.pipe-clips-for-the-bay
        pipe-under.pipe-nuts-for-the-long-pipe pipe-under.pipe-clips-beneath
        pipe-rear.pipe-nuts-for-the-rear-axle pipe-rear.pipe-clips-for-the-rear-axle
        valve-fit.bolts-of-the-valve-bracket front-hoses.copper-washers-for-the-front-hoses
        front-hoses.hose-clips-at-the-front-brackets rear-hoses.copper-washers-for-the-rear-hoses
        rear-hoses.hose-clips-at-the-rear-brackets fuel-line.clips-for-the-fuel-pipe
        tank-fit.tank-strap-bolts tank-fit.filler-clips fuel-pump.fuel-clips-for-the-pump
        fuel-hoses.round-edged-fuel-clips""",
    LoadPath.WIRING: """
        earth-points.star-washers-for-the-earth-points battery-leads.battery-clamp
        battery-leads.terminal-boots headlamps.front-lamp-screws rear-lamps.rear-lamp-screws
        col-switches.column-switch-screws-and-clips loom-main.wiring-clips-and-ties
        loom-rear.clips-for-the-rear-wiring""",
    LoadPath.CATCH: """
        doors-hang.hinge-bolts doors-hang.hinge-shims door-latches.lock-and-striker-screws
        bonnet-fit.bonnet-bolts-and-shims boot-fit.boot-bolts-and-shims
        bonnet-latch.catch-striker-and-bolts bonnet-cable.cable-clamp""",
    LoadPath.BODY: """
        id-plate.plate-rivets-as-original floor-plugs.grommets-and-bungs-for-the-floor
        bulkhead-pad.pad-clips rad-fit.radiator-bolts bumpers.bumper-bolts
        bumpers.rubber-washers brightwork.trim-clips brightwork.trim-studs-and-nuts
        mirrors-plates.mirror-and-plate-screws arch-liners.liner-screws-and-clips
        exh-loose.exhaust-hangers exh-loose.exhaust-clamps exh-tight.exhaust-bolts
        heat-shields.shield-rivets-or-bolts fi-downpipe.downpipe-bracket-and-bolts
        headlining.headlining-clips dash-top.dash-top-nuts dash-fit.dash-nuts-and-clips
        carpets.carpet-studs side-trims.trim-clips-and-screws
        door-cards.door-card-clips-and-screws trim-last.screws-for-console-and-visors""",
}
"""By what gives way, the needs of the starter network."""

_SEATS: Final[Mapping[Seat, str]] = {
    Seat.FIRM: """
        mc-fit.cylinder-flange-nuts valve-fit.bolts-of-the-valve-bracket disc-fit.disc-bolts
        caliper-fit.caliper-bolts belt-anchors.belt-anchor-bolts seats-fit.seat-bolts-and-spacers
        clutch-fit.flywheel-bolts-and-lock mate.housing-bolts doors-hang.hinge-bolts
        door-latches.lock-and-striker-screws bonnet-latch.catch-striker-and-bolts
        propshaft-rwd.propshaft-bolts-and-lock-nuts bumpers.bumper-bolts
        gearbox-mount-rwd.crossmember-bolts""",
    Seat.RUBBER: """
        front-arms.front-arm-bolts-and-lock-nuts rear-beam-fwd.rear-beam-bolts-and-lock-nuts
        rear-springs.rear-spring-and-damper-bolts""",
    Seat.WHEEL: "wheel-fixings.wheel-nuts-or-bolts",
    Seat.PINCH: """
        rack-fit.rack-clamps-and-bolts column-fit.pinch-bolts-and-lock-nuts
        axle-fit-rwd.u-bolts-and-lock-nuts""",
    Seat.TAPER: "uprights.ball-joint-nuts track-rods.track-rod-nuts",
    Seat.GASKET: """
        front-springs.front-damper-lock-nuts tank-fit.tank-strap-bolts
        engine-top.head-bolts-or-studs engine-dress.manifold-studs-and-nuts
        exh-loose.exhaust-clamps exh-tight.exhaust-bolts
        fi-fit.manifold-studs-and-locking-plates""",
    Seat.BEARING: "rear-hubs-fwd.rear-stub-nuts driveshafts-fwd.new-hub-nuts",
    Seat.WASHER: """
        front-hoses.copper-washers-for-the-front-hoses
        rear-hoses.copper-washers-for-the-rear-hoses""",
    Seat.UNION: """
        pipe-bay.pipe-nuts-for-the-bay pipe-under.pipe-nuts-for-the-long-pipe
        pipe-rear.pipe-nuts-for-the-rear-axle caliper-bench.bleed-screws""",
}
"""By what it draws together, those of them where that is plain."""

_STILL_TOO: Final = """
    bonnet-fit.bonnet-bolts-and-shims boot-fit.boot-bolts-and-shims
    front-frame.front-frame-mount-bolts anti-roll.anti-roll-bar-clamps-and-bolts
    engine-install-fwd.power-unit-mount-bolts engine-install-rwd.engine-mount-bolts
    mounts.mount-lock-nuts column-fit.shear-bolts-of-the-steering-lock
    col-switches.steering-wheel-nut col-switches.column-switch-screws-and-clips
    hub-dummy-fwd.long-bolts-and-thick-washers headlamps.front-lamp-screws
    rear-lamps.rear-lamp-screws battery-leads.battery-clamp
    earth-points.star-washers-for-the-earth-points"""
"""Bolts and screws that clamp and stay still, on what is not plain: its owner looks."""

_FORKED: Final = """
    pedal-box.clevis-pins-for-the-pedals hb-cables.clevis-pins-for-the-handbrake
    hb-connect.clevis-pins-at-the-wheels clutch-line.clutch-clevis-pin slave.slave-clevis-pin"""
"""Pins that turn in a fork, and are cut twice."""


@cache
def named() -> Mapping[str, Duty]:
    """Return the duty of every need that is named here, by the need's id."""
    return dict(_all())


def _all() -> Iterator[tuple[str, Duty]]:
    forked = set(_FORKED.split())
    seats = {key: seat for seat, keys in _SEATS.items() for key in keys.split()}
    still = {*seats, *_STILL_TOO.split()}
    for path, keys in _PATHS.items():
        for key in keys.split():
            joint = _PIN if key in forked else _STILL if key in still else Duty()
            yield key, replace(joint, load_path=path, seat=seats.get(key))


def duty_of(need_id: str) -> Duty | None:
    """Say what a need of the starter network is relied on for; None where it is not plain.

    Examples
    --------
    >>> duty_of("caliper-fit.caliper-bolts").load_path.value
    'caliper'
    >>> duty_of("flare-trial.trial-nuts") is None
    True
    """
    return named().get(need_id)
