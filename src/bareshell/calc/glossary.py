"""Every argument of every formula: what it means in the reader's words, its unit, and its rule.

One name means one thing throughout. A formula refuses what breaks the rule, in these words.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

__all__ = ["RULES", "TERMS", "Rule", "Term"]


@dataclass(frozen=True, slots=True)
class Rule:
    """What values an argument may take, and how its breaking is told.

    Parameters
    ----------
    name : str
        As the table below has it.
    lowest, highest : float
        The span that is allowed, ends included unless `above`.
    broken : str
        What is said of a value outside, after the value itself.
    remedy : str
        What would be right.
    above : bool
        True when the lowest itself is refused.
    words : bool
        True for text, which the formula looks up itself.
    """

    name: str
    lowest: float
    highest: float
    broken: str
    remedy: str
    above: bool = False
    words: bool = False

    @property
    def endless(self) -> bool:
        """True when an endless value means something: a valve that never bends."""
        return self.highest == math.inf

    def allows(self, low: float, high: float) -> bool:
        """Say whether values from low to high are allowed; none that is not a number is."""
        enough = low > self.lowest if self.above else low >= self.lowest
        return enough and high <= self.highest


@dataclass(frozen=True, slots=True)
class Term:
    """One argument.

    Parameters
    ----------
    words : str
        What it is, in the reader's words.
    unit : str
        Its unit, as docstrings bracket it.
    rule : Rule
        What it may be.
    many : bool
        True when it takes a sequence of values, each a number or an array.
    """

    words: str
    unit: str
    rule: Rule
    many: bool = False


_MOST: Final = 1.7e308  # any finite number is below it

RULES: Final = MappingProxyType(
    {
        rule.name: rule
        for rule in (
            Rule("any", -_MOST, _MOST, "cannot be used", "give a number"),
            Rule("not below zero", 0.0, _MOST, "is below zero", "give zero or more"),
            Rule(
                "above zero",
                0.0,
                _MOST,
                "is not more than zero",
                "give it as measured, above zero",
                above=True,
            ),
            Rule("or endless", 0.0, math.inf, "is below zero", "give zero or more"),
            Rule("share", 0.0, 1.0, "is not between 0 and 1", "give a share: 0.3 for 30 per cent"),
            Rule(
                "part",
                0.0,
                1.0,
                "is not above 0 and at most 1",
                "give a share: 0.9 for 90 per cent, 1 for no loss",
                above=True,
            ),
            Rule("ratio", 1.0, _MOST, "is below 1", "give the larger over the smaller, 1 or more"),
            Rule("celsius", -273.15, _MOST, "is below absolute zero", "give it in degrees Celsius"),
            Rule(
                "vacuum",
                0.0,
                1.1e5,
                "is no vacuum below the atmosphere",
                "give how far below the atmosphere, between nothing and 1 bar",
            ),
            Rule(
                "half turn",
                0.0,
                math.pi,
                "is not an angle above nothing, up to half a turn",
                "give it in radians",
                above=True,
            ),
            Rule(
                "from nothing",
                0.0,
                math.pi,
                "is not an angle from nothing to half a turn",
                "give it in radians",
            ),
            Rule(
                "flank",
                0.0,
                1.5,
                "is no half angle of a thread",
                "give it in radians: 0.524 for 30 degrees",
                above=True,
            ),
            Rule(
                "flank",
                0.0,
                1.5,
                "is no half angle of a thread",
                "give it in radians: 0.524 for 30 degrees",
                above=True,
            ),
            Rule(
                "incline", -1.5, 1.5, "is steeper than a road can be", "give the angle in radians"
            ),
            Rule("words", 0.0, 0.0, "", "", words=True),
        )
    }
)
"""The rules by name."""

# name | unit | rule | words. A name that ends in * takes a sequence.
_TABLE: Final = """
across_n | N | not below zero | load across the fixing
actuation_arm_m | m | above zero | distance from the shoe's pivot to the line of the cylinder
adhesion | - | not below zero | adhesion
age_years | year | not below zero | age of the fluid
air_share | - | not below zero | free air over fluid
air_volume_m3 | m3 | not below zero | air in the line
ambient_c | degC | celsius | temperature of the air
applications | - | not below zero | number of applications
area_m2 | m2 | above zero | area
aspect_ratio | - | above zero | height of the tyre's section over its width
atmosphere_pa | Pa | above zero | pressure of the atmosphere
available_stroke_m | m | above zero | stroke that there is
axle_force_n | N | not below zero | brake force of the axle
axle_line_height_m | m | above zero | height of the line between the wheel centres
axle_load_n | N | not below zero | load on the axle
ball_angle_rad | rad | from nothing | angle of the ball's ramp
bar_front_share | - | share | share of the push that the balance bar gives the front
base | words | words | base of the fluid
begin_distance_m | m | not below zero | distance run to the 0.8 speed
begin_speed_m_s | m/s | not below zero | speed at the beginning
boost_ratio | - | ratio | boost ratio of the servo
bore_m | m | above zero | bore
brake_factor | - | not below zero | brake factor
braked_wheels | - | above zero | number of wheels that are braked
build_up_time_s | s | not below zero | time in which the brakes build up
bulk_modulus_pa | Pa | above zero | bulk modulus of the fluid
cable_arm_m | m | above zero | distance from the hand lever's pivot to the cable
cable_force_n | N | not below zero | force in the cable
cable_length_m | m | not below zero | length of the cable
cable_stiffness_n | N | above zero | stiffness of the cable
cable_travel_m | m | not below zero | travel of the cable
cables | - | above zero | number of cables
caliper_capacity_j_k | J/K | above zero | heat that warms the caliper by a kelvin
caliper_efficiency | - | part | efficiency of the caliper
caliper_start_c | degC | celsius | temperature of the caliper as the car stopped
caliper_to_air_w_k | W/K | not below zero | heat that the caliper gives the air
capacities_j_k* | J/K | above zero | heat that warms a lump by a kelvin
cg_height_m | m | above zero | height of the centre of gravity
cg_to_front_m | m | not below zero | distance from front axle to centre of gravity
clamp_force_n | N | not below zero | clamp on each face of the disc
clearance_arm_m | m | above zero | distance from the shoe's pivot to where clearance was measured
click_angle_rad | rad | half turn | angle of one click
closing_pressure_pa | Pa | or endless | pressure as the ball shut
compliance_m3_pa | m3/Pa | not below zero | fluid taken for each pascal
conductivity_w_m_k | W/(m.K) | above zero | heat conductivity
construction | words | words | construction of the tyre
container_expansion_per_k | 1/K | not below zero | growth of the space for each kelvin
cooled_area_m2 | m2 | above zero | area that the air touches
cooling_coefficient_w_m2_k | W/(m2.K) | above zero | cooling coefficient
cut_in_force_n | N | not below zero | force that opens the servo's valve
cylinder_area_m2 | m2 | above zero | area of the wheel cylinder
cylinder_bore_m | m | above zero | bore of the wheel cylinder
cylinder_efficiency | - | part | efficiency of the cylinder
deceleration_g | - | not below zero | deceleration as a share of g
deceleration_m_s2 | m/s2 | not below zero | deceleration
deceleration_per_pa | 1/Pa | above zero | deceleration gained for each pascal
density_kg_m3 | kg/m3 | above zero | density
diameter_m | m | above zero | diameter of the thread
diaphragm_area_m2 | m2 | above zero | area of the servo's diaphragm
diffusivity_m2_s | m2/s | above zero | diffusivity of the metal
disc_capacity_j_k | J/K | above zero | heat that warms the disc by a kelvin
disc_diameter_m | m | above zero | diameter of the disc
disc_start_c | degC | celsius | temperature of the disc as the car stopped
disc_to_air_w_k | W/K | above zero | heat that the disc gives the air
distance_m | m | above zero | braking distance
drag_energy_j | J | not below zero | energy that air and engine take
drive_efficiency | - | part | efficiency of the final drive
drum_diameter_m | m | above zero | diameter of the drum
drum_lever_ratio | - | ratio | ratio of the lever in the drum
drum_radius_m | m | above zero | radius of the drum
dry_boiling_c | degC | celsius | dry boiling point
effective_radius_m | m | above zero | effective radius
emissivity | - | part | emissivity
end_distance_m | m | above zero | distance run to the 0.1 speed
end_speed_m_s | m/s | not below zero | speed at the end
energy_j | J | not below zero | energy
engagement_m | m | not below zero | length of thread in the hole
eye_ply_m | m | not below zero | thickness of the eye
female_diameter_m | m | above zero | diameter of the female thread
female_form | words | words | form of the female thread
female_pitch_diameter_m | m | above zero | flank line of the female thread
female_pitch_m | m | above zero | pitch of the female thread
final_drive_ratio | - | ratio | final drive ratio
firm_pressure_pa | Pa | not below zero | pressure of the firm push
firm_volume_m3 | m3 | not below zero | fluid given at the firm push
flank_angle_rad | rad | flank | half the angle of the thread
flank_play_m | m | any | play between the flanks
floating_front_bore_m | m | above zero | bore of the floating piston's front
floating_rear_bore_m | m | above zero | bore of the floating piston's rear
floating_spring_n | N | not below zero | spring ahead of the floating piston
floating_stroke_m | m | not below zero | stroke of the floating piston
floating_volume_m3 | m3 | not below zero | fluid that the floating circuit takes
fluid_expansion_per_k | 1/K | not below zero | growth of the fluid for each kelvin
fluid_volume_m3 | m3 | not below zero | fluid under pressure
foot_arm_m | m | above zero | arm of the pedal pad
force_n | N | not below zero | force at the road
fork_ply_m | m | not below zero | thickness of each side of the fork
free_radius_m | m | above zero | free radius of the tyre
friction | - | not below zero | friction of the lining
friction_arm_m | m | above zero | distance from the shoe's pivot to the line of its friction
friction_of_road | - | not below zero | adhesion that the road offers
front_adhesion | - | or endless | adhesion used by the front axle
front_bore_m | m | above zero | bore of the front cylinder
front_force_n | N | not below zero | brake force of the front axle
front_load_n | N | not below zero | load on the front axle
front_pa | Pa | not below zero | pressure of the front circuit
front_rod_arm_m | m | above zero | distance from the bar's bearing to the front clevis
front_tyre_radius_m | m | above zero | height of the front wheel centres
grade | words | words | grade of the fluid
hand_force_n | N | not below zero | pull of the hand
heat_share | - | share | share of the heat
heated_mass_kg | kg | above zero | mass that is heated
heel_angle_rad | rad | half turn | angle where the lining ends
hose_class | words | words | class of hose
hose_length_m | m | not below zero | length of the hose
inlet_area_m2 | m2 | above zero | inlet area of the valve's piston
inner_radius_m | m | above zero | inner radius of the rubbed ring
input_arm_m | m | above zero | distance from the drum's centre to the line of the cylinder
input_force_n | N | not below zero | force of the push rod on the servo
interval_s | s | above zero | time from one snub to the next
joint_friction | - | not below zero | friction between the clamped faces
knee_pa | Pa | or endless | knee of the proportioning valve
leading_factor | - | not below zero | brake factor of the leading shoe
leading_sensitivity | - | not below zero | sensitivity of the leading shoe
left_effort_n | N | not below zero | effort of the left wheel
left_force_n | N | not below zero | brake force of the left wheel
lever_ratio | - | ratio | ratio of the hand lever
lift_pressure_pa | Pa | or endless | pressure at which the valve lifts again
light_pressure_pa | Pa | not below zero | pressure of the light push
light_volume_m3 | m3 | not below zero | fluid given at the light push
limit_pa | Pa | or endless | pressure at which the valve shuts
line_servo_capacity_pa | Pa | or endless | most pressure that the servo adds
lining_arc_rad | rad | half turn | arc of the lining
lining_effusivity | W.s0.5/(m2.K) | above zero | effusivity of the lining
lining_factor | - | ratio | lining factor
lining_width_m | m | above zero | width of the lining
link_arm_m | m | above zero | distance from the drum's centre to the link
link_w_k | W/K | above zero | heat flow between disc and caliper
linkage_efficiency | - | part | efficiency of the parking linkage
linkage_ratio | - | above zero | ratio of the relay levers
links_w_k* | W/K | not below zero | heat flow from one lump to the next
load_gained_n | N | not below zero | load that the lower axle gained
locking_friction | - | above zero | friction at which the shoe locks by itself
male_diameter_m | m | above zero | diameter of the male thread
male_pitch_diameter_m | m | above zero | flank line of the male thread
male_pitch_m | m | above zero | pitch of the male thread
marking | words | words | size of the tyre
mass_kg | kg | above zero | mass of the car
metal_effusivity | W.s0.5/(m2.K) | above zero | effusivity of the metal
metal_expansion_per_k | 1/K | not below zero | growth of the metal for each kelvin
moment_nm | N.m | not below zero | bending moment
nut_factor | - | above zero | friction factor of the nut
onset_pressure_pa | Pa | not below zero | pressure that only beats the springs
other_base | words | words | base of the other fluid
other_drag_n | N | not below zero | drag of air, tyres and engine
other_pressure_pa | Pa | not below zero | pressure of the other circuit
outer_radius_m | m | above zero | outer radius of the rubbed ring
outlet_area_m2 | m2 | above zero | outlet area of the valve's piston
output_force_n | N | not below zero | force that the servo should give
pad_angle_rad | rad | half turn | angle that the pad spans
pad_clearance_m | m | not below zero | clearance of the pad
pad_pressure_pa | Pa | not below zero | pressure on the pad
pad_stiffness_n_m | N/m | above zero | stiffness of the pad
peak_flux_w_m2 | W/m2 | not below zero | heat into the face at the start
pedal_efficiency | - | part | efficiency of the pedal
pedal_force_n | N | not below zero | force of the foot
pedal_ratio | - | ratio | pedal ratio
pedal_return_n | N | not below zero | force of the pedal's return spring
pin_diameter_m | m | above zero | diameter of the pin
pipe_length_m | m | not below zero | length of the pipe
pipe_outer_m | m | above zero | outer diameter of the pipe
pipe_wall_m | m | not below zero | wall of the pipe
piston_area_m2 | m2 | above zero | area of the pistons
piston_areas_m2* | m2 | above zero | area of the pistons on a circuit
piston_bores_m* | m | above zero | bore of a piston
piston_travel_m | m | not below zero | travel of the piston
pitch_m | m | above zero | pitch of the thread
pivot_arm_m | m | above zero | distance from the shoe's pivot to the line of its normal force
pivot_radius_m | m | above zero | radius of the shoe's pivot
ply_m | m | above zero | thickness of the ply
poisson_ratio | - | share | Poisson's ratio of the pipe
power_w | W | not below zero | power
preload_n | N | not below zero | clamp of the bolt
pressure_pa | Pa | not below zero | pressure
pressures_pa* | Pa | not below zero | pressure of a circuit
primary_bore_m | m | above zero | bore of the primary piston
primary_factor | - | not below zero | brake factor of the primary shoe
primary_sensitivity | - | not below zero | sensitivity of the primary shoe
primary_spring_n | N | not below zero | spring between the pistons
primary_stroke_m | m | not below zero | stroke of the primary piston
primary_volume_m3 | m3 | not below zero | fluid that the primary circuit takes
proof_stress_pa | Pa | not below zero | proof stress
push_out_pressure_pa | Pa | not below zero | pressure that only shifts the pads
push_rod_arm_m | m | above zero | arm of the push rod
push_rod_force_n | N | not below zero | force of the push rod
push_rod_stroke_m | m | not below zero | stroke of the push rod
reaction_threshold_pa | Pa | not below zero | pressure that moves the reaction valve
reaction_time_s | s | not below zero | reaction time
rear_adhesion | - | or endless | adhesion used by the rear axle
rear_bore_m | m | above zero | bore of the rear cylinder
rear_force_n | N | not below zero | brake force of the rear axle
rear_load_n | N | not below zero | load on the rear axle
rear_pa | Pa | not below zero | pressure of the rear circuit
rear_rod_arm_m | m | above zero | distance from the bar's bearing to the rear clevis
rear_share | - | share | rear share of the brake force
rear_tyre_radius_m | m | above zero | height of the rear wheel centres
residual_pa | Pa | not below zero | residual pressure
return_spring_n | N | not below zero | return spring of the cylinder
right_effort_n | N | not below zero | effort of the right wheel
right_force_n | N | not below zero | brake force of the right wheel
rim_diameter_m | m | above zero | diameter of the rim
rise_k | K | not below zero | rise of one snub
rise_m | m | above zero | rise of the axle
road_angle_rad | rad | incline | slope of the road
rolling_radius_m | m | above zero | rolling radius of the tyre
rotating_mass_factor | - | ratio | factor for rotating parts
rubber | words | words | rubber of the seals
rubbing_faces | - | not below zero | number of faces that rub
scrub_radius_m | m | any | scrub radius
seal_friction_n | N | not below zero | friction of the seals
secondary_factor | - | not below zero | brake factor of the secondary shoe
secondary_sensitivity | - | not below zero | sensitivity of the secondary shoe
section_width_m | m | above zero | width of the tyre's section
servo_air_m3 | m3 | not below zero | air let in at each application
servo_capacity_n | N | or endless | most that the servo adds
servo_drag_n | N | not below zero | force that the dead servo swallows
servo_efficiency | - | part | efficiency of the servo
servo_spring_n | N | not below zero | return spring of the servo
shaft_torque_nm | N.m | not below zero | torque on the propeller shaft
shear_planes | - | above zero | number of planes in which it is cut
shear_strength_pa | Pa | not below zero | shear strength
shift_difference_pa | Pa | above zero | pressure difference that moves the shuttle
shoe_clearance_m | m | not below zero | clearance of the shoe
shoe_force_n | N | not below zero | force on the shoe
shoe_spring_n | N | not below zero | return spring of the shoe
side_gap_m | m | not below zero | gap at the side of the eye
slab_depth_m | m | above zero | depth that the heat has to cross
slave_area_m2 | m2 | above zero | area of the servo's hydraulic piston
slope | - | any | slope
snub_number | - | not below zero | number of the snub
specific_heat_j_kg_k | J/(kg.K) | above zero | specific heat
speed_m_s | m/s | not below zero | speed
start_c | degC | celsius | temperature at the start
steady_c | degC | celsius | steady temperature
steady_deceleration_m_s2 | m/s2 | above zero | steady deceleration
stop_time_s | s | above zero | time of the stop
strength_grade | words | words | grade marked on it
stress_area_m2 | m2 | above zero | stress area
stroke_m | m | not below zero | stroke
temperature_c | degC | celsius | temperature
temperature_change_k | K | any | change of temperature
temperatures_c* | degC | celsius | temperature of a lump
thread_form | words | words | form of the thread
thread_pitch_diameter_m | m | above zero | flank line of the thread
time_constant_s | s | above zero | cooling time constant
time_s | s | not below zero | time
to_air_w_k* | W/K | not below zero | heat that a lump gives the air
toe_angle_rad | rad | from nothing | angle where the lining begins
torque_nm | N.m | not below zero | torque
total_effort_n | N | not below zero | sum of the efforts
track_m | m | above zero | track
trailing_factor | - | not below zero | brake factor of the trailing shoe
trailing_sensitivity | - | not below zero | sensitivity of the trailing shoe
tyre_radius_m | m | above zero | radius of the tyre
vacuum_pa | Pa | vacuum | vacuum
vacuum_store_m3 | m3 | above zero | space that holds vacuum
valve_slope | - | share | slope of the valve
valve_spring_n | N | not below zero | spring of the valve
viscosity_m2_s | m2/s | above zero | kinematic viscosity
volume_m3 | m3 | not below zero | volume of fluid
water_share | - | share | water in the fluid
weight_n | N | above zero | weight of the car
wet_boiling_c | degC | celsius | wet boiling point
wheel_speed_rad_s | rad/s | not below zero | speed of the wheel
wheel_torque_nm | N.m | not below zero | torque of each wheel
wheelbase_m | m | above zero | wheelbase
wheels_braked | - | above zero | number of wheels that are braked
wheels_locked | - | not below zero | number of wheels that locked
youngs_modulus_pa | Pa | above zero | Young's modulus of the pipe
"""


def _terms() -> dict[str, Term]:
    terms: dict[str, Term] = {}
    for row in _TABLE.strip().splitlines():
        name, unit, rule, words = (part.strip() for part in row.split(" | "))
        terms[name.removesuffix("*")] = Term(words, unit, RULES[rule], name.endswith("*"))
    return terms


TERMS: Final = MappingProxyType(_terms())
"""Every argument by its name."""
