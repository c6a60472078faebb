"""The brakes: one circuit, entered once as a graph, and every answer drawn from it.

`graph` turns a `BrakeSystem` into legs of fluid. On it stand the checks on entry, the solve from
foot to road, every single failure, heat and fluid, the parking brake, the yardsticks, the trust in
a verdict, the joints, the cut list, the bleed plan and the commissioning. All of it is pure: the
figures come in, the answers go out. No answer here proves that a car stops; a test does.
"""
