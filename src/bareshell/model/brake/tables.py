"""The tables behind `fields`: figures and choices of each kind of brake part.

Bounds are wide enough for anything with wheels and narrow enough to catch a slip of the unit;
they are `common practice, no source` and never stand in for a figure.

Journals hold these names and figures. Rows may be added and bounds widened; a row that is taken
away, or a bound that is narrowed, would make an old journal unreadable.
"""

from __future__ import annotations

from typing import Final

# name | quantity | least | most | likely low | likely high | words
FIGURES: Final[dict[str, str]] = {
    "car": """
wheelbase_m | length | 0.5 | 8 | 1.6 | 3.2 | wheelbase
driver_only_mass_kg | mass | 50 | 8000 | 400 | 2200 | mass with the driver only
driver_only_front_share | share | 0.05 | 0.95 | 0.35 | 0.68 | share of it on the front axle
laden_mass_kg | mass | 50 | 9000 | 550 | 2900 | mass fully laden
laden_front_share | share | 0.05 | 0.95 | 0.3 | 0.62 | share of the laden mass on the front axle
cg_height_m | length | 0.05 | 2 | 0.4 | 0.75 | height of the centre of gravity, driver only
laden_cg_height_m | length | 0.05 | 2 | 0.4 | 0.8 | height of the centre of gravity, laden
front_track_m | length | 0.3 | 3 | 1.0 | 1.7 | track of the front wheels
rear_track_m | length | 0.3 | 3 | 1.0 | 1.7 | track of the rear wheels
front_rolling_radius_m | length | 0.05 | 1 | 0.22 | 0.38 | rolling radius of the front tyres
rear_rolling_radius_m | length | 0.05 | 1 | 0.22 | 0.38 | rolling radius of the rear tyres
top_speed_m_s | speed | 3 | 130 | 25 | 70 | top speed
rotating_mass_ratio | ratio | 1 | 1.5 | 1.0 | 1.15 | effective mass over mass, for what rotates
scrub_radius_m | length | -0.2 | 0.3 | -0.03 | 0.09 | scrub radius of the front wheels
""",
    "pedal": """
ratio | ratio | 0.5 | 15 | 2.5 | 7.5 | ratio of the pedal
efficiency | share | 0.2 | 1 | 0.7 | 1 | efficiency of the pedal and its pivots
return_n | force | 0 | 300 | 0 | 60 | foot force that only lifts the return spring
free_play_m | length | 0 | 0.1 | 0 | 0.02 | free play at the pedal pad
floor_travel_m | length | 0.01 | 0.4 | 0.08 | 0.2 | travel of the pedal pad to the floor
""",
    "servo": """
boost_ratio | ratio | 1 | 20 | 1.5 | 6 | boost ratio of the servo
vacuum_pa | pressure | 0 | 105000 | 40000 | 85000 | vacuum at the servo
diaphragm_diameter_m | length | 0.02 | 0.6 | 0.1 | 0.3 | diameter of the servo's diaphragm
efficiency | share | 0.2 | 1 | 0.8 | 1 | efficiency of the servo
spring_n | force | 0 | 1000 | 0 | 300 | force of the servo's return spring
cut_in_n | force | 0 | 500 | 10 | 150 | push that opens the servo's valve
dead_drag_n | force | 0 | 500 | 0 | 150 | push that a dead servo swallows
lost_travel_m | length | 0 | 0.02 | 0 | 0.003 | travel of the push rod that the servo takes
""",
    "balance bar": """
front_share | share | 0 | 1 | 0.3 | 0.75 | share of the push that the bar gives the front cylinder
""",
    "master cylinder": """
bore_m | length | 0.005 | 0.1 | 0.0127 | 0.0286 | bore
floating_bore_m | length | 0.005 | 0.1 | 0.0127 | 0.0286 | bore of the floating piston, if stepped
primary_stroke_m | length | 0.002 | 0.2 | 0.01 | 0.04 | stroke of the first piston, to the second
floating_stroke_m | length | 0.002 | 0.2 | 0.01 | 0.035 | stroke of the floating piston
port_closing_m | length | 0 | 0.02 | 0.0005 | 0.003 | stroke in which a piston closes its port
primary_spring_n | force | 0 | 500 | 20 | 150 | force of the spring on the first piston
floating_spring_n | force | 0 | 500 | 20 | 150 | force of the spring ahead of the floating piston
seal_friction_n | force | 0 | 300 | 5 | 60 | force that a piston's seals swallow
efficiency | share | 0.5 | 1 | 0.88 | 1 | efficiency of the cylinder
""",
    "remote servo": """
boost_ratio | ratio | 1 | 10 | 1.3 | 3 | boost ratio of the remote servo
threshold_pa | pressure | 0 | 5000000 | 100000 | 1500000 | line pressure at which it cuts in
vacuum_pa | pressure | 0 | 105000 | 40000 | 85000 | vacuum at the remote servo
diaphragm_diameter_m | length | 0.02 | 0.6 | 0.1 | 0.25 | diameter of its diaphragm
slave_bore_m | length | 0.005 | 0.1 | 0.012 | 0.026 | bore of its slave piston
slave_stroke_m | length | 0.002 | 0.3 | 0.02 | 0.09 | stroke of its slave piston
efficiency | share | 0.2 | 1 | 0.8 | 1 | efficiency of the remote servo
spring_n | force | 0 | 1000 | 0 | 300 | force of its return spring
bleed_torque_nm | torque | 0.5 | 40 | 3 | 17 | torque of its bleed screw, by its maker
""",
    "valve": """
knee_pa | pressure | 0 | 30000000 | 700000 | 8000000 | pressure at the valve's knee, or its limit
slope | share | 0 | 1 | 0.15 | 0.8 | slope above the knee
closing_deceleration_g | share_of_g | 0 | 2 | 0.2 | 0.7 | deceleration at which the ball shuts
residual_pa | pressure | 0 | 1000000 | 20000 | 200000 | residual pressure that it keeps
shift_pa | pressure | 0 | 5000000 | 300000 | 2500000 | difference of pressure that moves the shuttle
""",
    "caliper": """
a_bore_m | length | 0.005 | 0.15 | 0.028 | 0.064 | bore of the pistons
a_pistons | count | 1 | 12 | 1 | 3 | pistons on one side, of this bore
a_second_bore_m | length | 0.005 | 0.15 | 0.022 | 0.06 | bore of the second pair, if it differs
a_second_pistons | count | 1 | 12 | 1 | 3 | pistons on one side, of the second bore
b_bore_m | length | 0.005 | 0.15 | 0.022 | 0.06 | bore of the pistons on the second circuit
b_pistons | count | 1 | 12 | 1 | 3 | pistons on one side, on the second circuit
efficiency | share | 0.5 | 1 | 0.9 | 1 | efficiency of the caliper
threshold_pa | pressure | 0 | 1000000 | 0 | 200000 | pressure that its seals swallow
pad_friction | ratio | 0.05 | 1 | 0.25 | 0.55 | friction of the pads
pad_clearance_m | length | 0 | 0.005 | 0.00003 | 0.0005 | clearance of each pad
flex_m3_pa | compliance | 0 | 1e-11 | 1e-15 | 4e-13 | fluid that its flexing takes, all pistons
pad_stiffness_n_m | stiffness | 100000 | 1e10 | 2e7 | 8e8 | stiffness of one pad
wheel_clearance_m | length | -0.05 | 0.2 | 0.003 | 0.05 | clearance to the wheel at its nearest
mass_kg | mass | 0.1 | 25 | 1 | 7 | mass of the caliper with its pistons
pad_mass_kg | mass | 0.02 | 5 | 0.15 | 1.2 | mass of both pads with their plates
pad_wear_m | length | 0 | 0.03 | 0.003 | 0.012 | thickness that each pad may lose
fluid_m3 | volume | 0 | 0.001 | 0.000003 | 0.00012 | fluid that stands in it
disc_to_pad_w_k | heat_flow | 0.01 | 200 | 0.5 | 15 | heat from disc to pads for each kelvin
pad_to_body_w_k | heat_flow | 0.01 | 200 | 0.3 | 8 | heat from pads to caliper for each kelvin
body_to_fluid_w_k | heat_flow | 0.01 | 200 | 0.5 | 15 | heat from caliper to fluid for each kelvin
cooled_area_m2 | area | 0.0005 | 1 | 0.01 | 0.08 | area of the caliper that the air touches
hot_friction_ratio | ratio | 0.05 | 2 | 0.5 | 1.15 | friction of the pads when hot, over cold
bleed_torque_nm | torque | 0.5 | 40 | 3 | 17 | torque of its bleed screw, by its maker
""",
    "disc": """
outer_diameter_m | length | 0.05 | 0.6 | 0.19 | 0.36 | diameter of the disc
pad_height_m | length | 0.005 | 0.2 | 0.03 | 0.06 | radial height of the pad
effective_radius_m | length | 0.02 | 0.3 | 0.07 | 0.16 | effective radius, where it is given
mass_kg | mass | 0.1 | 30 | 2 | 10 | mass of the disc that heats
thickness_m | length | 0.002 | 0.06 | 0.007 | 0.03 | thickness of the disc
rubbing_inner_diameter_m | length | 0.02 | 0.5 | 0.1 | 0.25 | inner diameter of the rubbed band
cheek_thickness_m | length | 0.001 | 0.03 | 0.004 | 0.012 | thickness of one cheek of a vented disc
heat_share | share | 0.1 | 1 | 0.85 | 1 | share of the heat that goes into the disc
specific_heat_j_kg_k | specific_heat | 100 | 2000 | 420 | 600 | specific heat of its metal
cooled_area_m2 | area | 0.001 | 2 | 0.03 | 0.35 | area of the disc that the air touches
cooling_ratio | ratio | 0.05 | 10 | 0.4 | 2 | cooling over what the published form gives
""",
    "drum": """
diameter_m | length | 0.05 | 0.6 | 0.15 | 0.3 | diameter of the drum
lining_width_m | length | 0.005 | 0.2 | 0.025 | 0.065 | width of the linings
lining_friction | ratio | 0.05 | 1 | 0.25 | 0.5 | friction of the linings
lining_arc_rad | angle | 0.2 | 3 | 1.4 | 2.3 | arc of one lining
actuation_arm_m | length | 0.01 | 0.6 | 0.1 | 0.26 | from the shoe's pivot to the cylinder's line
pivot_arm_m | length | 0.005 | 0.4 | 0.05 | 0.14 | from the shoe's pivot to the drum's centre line
friction_arm_m | length | 0.005 | 0.5 | 0.07 | 0.17 | from the shoe's pivot to the lining's drag
brake_factor | ratio | 0.1 | 12 | 0.8 | 6 | brake factor, where it is given
shoe_clearance_m | length | 0 | 0.01 | 0.0001 | 0.001 | clearance of the shoes at the lining
mass_kg | mass | 0.1 | 60 | 2 | 12 | mass of the drum that heats
flex_m3_pa | compliance | 0 | 1e-11 | 1e-15 | 4e-13 | fluid that drum and shoes take by flexing
rim_thickness_m | length | 0.001 | 0.05 | 0.005 | 0.014 | thickness of the drum's rim
lining_mass_kg | mass | 0.02 | 10 | 0.3 | 2.5 | mass of both shoes with their linings
lining_wear_m | length | 0 | 0.03 | 0.002 | 0.006 | thickness that each lining may lose
heat_share | share | 0.1 | 1 | 0.85 | 1 | share of the heat that goes into the drum
specific_heat_j_kg_k | specific_heat | 100 | 2000 | 420 | 950 | specific heat of its metal
cooled_area_m2 | area | 0.001 | 2 | 0.03 | 0.35 | area of the drum that the air touches
cooling_ratio | ratio | 0.05 | 10 | 0.3 | 2 | cooling over what the published form gives
drum_to_shoe_w_k | heat_flow | 0.01 | 200 | 0.5 | 15 | heat from drum to shoes for each kelvin
shoe_to_body_w_k | heat_flow | 0.01 | 200 | 0.1 | 5 | heat from shoes to cylinder for each kelvin
hot_friction_ratio | ratio | 0.05 | 2 | 0.4 | 1.15 | friction of the linings when hot, over cold
""",
    "wheel cylinder": """
bore_m | length | 0.005 | 0.1 | 0.0127 | 0.032 | bore
efficiency | share | 0.5 | 1 | 0.88 | 1 | efficiency of the cylinder
threshold_pa | pressure | 0 | 2000000 | 50000 | 500000 | pressure that springs and seals swallow
mass_kg | mass | 0.02 | 10 | 0.15 | 1.5 | mass of the cylinder with the plate it heats
fluid_m3 | volume | 0 | 0.001 | 0.000001 | 0.00003 | fluid that stands in it
body_to_fluid_w_k | heat_flow | 0.01 | 200 | 0.2 | 8 | heat from cylinder to fluid for each kelvin
cooled_area_m2 | area | 0.0005 | 1 | 0.005 | 0.1 | area of cylinder and plate that the air touches
bleed_torque_nm | torque | 0.5 | 40 | 3 | 17 | torque of its bleed screw, by its maker
""",
    "parking brake": """
lever_ratio | ratio | 1 | 30 | 4 | 12 | ratio of the hand lever
linkage_ratio | ratio | 0.2 | 30 | 0.8 | 4 | ratio of the linkage behind it
linkage_efficiency | share | 0.1 | 1 | 0.55 | 0.9 | efficiency of linkage and cables
drum_lever_ratio | ratio | 1 | 20 | 2.5 | 7 | ratio of the lever in the drum or caliper
cable_length_m | length | 0.1 | 10 | 0.8 | 4 | length of the cable to one wheel
cable_stiffness_n | force | 10000 | 10000000 | 100000 | 1500000 | stiffness of the cable, length out
cable_arm_m | length | 0.005 | 0.3 | 0.02 | 0.09 | from the hand lever's pivot to the cable
click_angle_rad | angle | 0.005 | 0.5 | 0.03 | 0.12 | angle of one click
clicks | count | 1 | 60 | 6 | 20 | clicks that the ratchet has
final_drive_ratio | ratio | 1 | 10 | 3 | 5.5 | final drive ratio, for a transmission brake
hand_force_n | force | 1 | 1500 | 100 | 400 | pull of the hand
""",
    "fluid": """
age_years | years | 0 | 60 | 0 | 6 | age of the fluid since the first fill
water_share | share | 0 | 0.2 | 0 | 0.06 | water measured in it
boiling_c | temperature | 20 | 350 | 110 | 310 | temperature at which a sample of it boiled
temperature_c | temperature | -40 | 250 | -10 | 120 | temperature of the fluid
bulk_modulus_pa | pressure | 1e8 | 5e9 | 8e8 | 2.2e9 | stiffness of the fluid without air
air_m3 | volume | 0 | 0.0001 | 0 | 0.000005 | air left in each circuit
""",
    "reservoir": """
volume_m3 | volume | 0 | 0.01 | 0.00005 | 0.0006 | fluid between the full and the low mark
""",
    "pipe": """
length_m | length | 0.005 | 20 | 0.05 | 4 | length
outside_diameter_m | length | 0.001 | 0.03 | 0.0031 | 0.0096 | outside diameter
wall_m | length | 0.0001 | 0.005 | 0.0005 | 0.0012 | wall
nut_torque_nm | torque | 1 | 80 | 6 | 30 | torque of its nuts, by the car's or part's maker
""",
    "hose": """
length_m | length | 0.02 | 5 | 0.12 | 0.6 | free length between its ends
swell_ratio | ratio | 0 | 5 | 0.1 | 1.3 | swelling over the most that its class allows
reach_m | length | 0.01 | 5 | 0.08 | 0.55 | distance between its ends at the worst position
bore_m | length | 0.001 | 0.02 | 0.0025 | 0.0066 | bore
end_torque_nm | torque | 1 | 80 | 6 | 40 | torque of its ends, by the car's or part's maker
""",
}

# name | options, or nothing for free words | words
CHOICES: Final[dict[str, str]] = {
    "car": """
front_tyre | | marking of the front tyres
rear_tyre | | marking of the rear tyres
first_used | | date the car was first used
driven | rear, front, all | driven wheels
""",
    "pedal": """
pushes | | what the pedal pushes
""",
    "servo": """
pushes | | what the servo pushes
""",
    "balance bar": """
front | | the cylinder that brakes the front
rear | | the cylinder that brakes the rear
""",
    "master cylinder": """
form | single, tandem | form
bores | alike, stepped | bores of a tandem cylinder
seals | EPDM, SBR, natural, nitrile, unknown | rubber of its seals
held | DOT 3, DOT 4, DOT 5, DOT 5.1, mineral, nothing, unknown | fluid that it held before
""",
    "remote servo": """
seals | EPDM, SBR, natural, nitrile, unknown | rubber of its seals
held | DOT 3, DOT 4, DOT 5, DOT 5.1, mineral, nothing, unknown | fluid that it held before
""",
    "valve": """
form | limiting, proportioning, deceleration-sensing, residual, warning shuttle, shut-off | form
bypass | yes, no | opens fully when the other circuit is lost
seals | EPDM, SBR, natural, nitrile, unknown | rubber of its seals
held | DOT 3, DOT 4, DOT 5, DOT 5.1, mineral, nothing, unknown | fluid that it held before
""",
    "tee": """
form | three-way, in-line union, hose bracket | form
""",
    "caliper": """
form | fixed, sliding | form
seals | EPDM, SBR, natural, nitrile, unknown | rubber of its seals
held | DOT 3, DOT 4, DOT 5, DOT 5.1, mineral, nothing, unknown | fluid that it held before
""",
    "disc": """
form | solid, vented | form
""",
    "drum": """
form | leading-trailing, twin leading, twin trailing, duo-servo | how its shoes act
factor | from geometry, given | where its brake factor comes from
adjuster | by hand, self-adjusting | how its clearance is kept
""",
    "wheel cylinder": """
form | double-ended, single-ended | form
seals | EPDM, SBR, natural, nitrile, unknown | rubber of its seals
held | DOT 3, DOT 4, DOT 5, DOT 5.1, mineral, nothing, unknown | fluid that it held before
""",
    "blank": """
form | plug, blanked pipe | what closes it
""",
    "parking brake": """
acts_on | rear wheels, front wheels, transmission | what it acts on
hold | mechanical, hydraulic | how it holds
control | hand, foot | what works it
sharing | free compensator, separate cables | how its pull is shared between two wheels
""",
    "fluid": """
grade | DOT 3, DOT 4, DOT 5, DOT 5.1, mineral, unknown | grade of the fluid
filled_on | | day of the first fill
bleed_order | | order of bleeding by the car's maker: wheels or parts, first one first
""",
    "reservoir": """
feeds | | chambers that it feeds
divided | yes, no, unknown | divided, so that one circuit cannot empty the other
held | DOT 3, DOT 4, DOT 5, DOT 5.1, mineral, nothing, unknown | fluid that it held before
""",
    "pipe": """
material | steel, copper-nickel, copper, stainless, unknown | material
""",
    "hose": """
hose_class | | class of the hose by how it swells
end_bracket | | bracket that holds it
lining | EPDM, SBR, natural, nitrile, PTFE, unknown | lining of the hose
held | DOT 3, DOT 4, DOT 5, DOT 5.1, mineral, nothing, unknown | fluid that it held before
""",
}
