"""Sources of the plan: scheduling, uncertain durations, bounds and the scoring of forecasts."""

from __future__ import annotations

from typing import Final

from bareshell.sources.record import Source

__all__ = ["PLANNING"]

PLANNING: Final = (
    Source(
        "kolisch-sprecher-1996",
        "PSPLIB: a project scheduling problem library, EJOR 96, 205-216",
        "Kolisch and Sprecher; European Journal of Operational Research",
        1996,
        "read second-hand",
        note="A public set of instances with known optima.",
    ),
    Source(
        "kolisch-1996",
        "Serial and parallel resource-constrained project scheduling methods revisited, EJOR 90",
        "Kolisch; European Journal of Operational Research",
        1996,
        "from memory",
        note="The serial and the parallel way of building a schedule.",
    ),
    Source(
        "kolisch-hartmann-2006",
        "Experimental investigation of heuristics for resource-constrained project scheduling: "
        "an update, EJOR 174",
        "Kolisch and Hartmann; European Journal of Operational Research",
        2006,
        "from memory",
    ),
    Source(
        "jackson-1955",
        "Scheduling a production line to minimize maximum tardiness, research report 43",
        "Jackson; University of California, Los Angeles",
        1955,
        "from memory",
        note="The preemptive one-machine bound.",
    ),
    Source(
        "carlier-1982",
        "The one-machine sequencing problem, EJOR 11",
        "Carlier; European Journal of Operational Research",
        1982,
        "from memory",
        note="Heads, tails and the preemptive bound.",
    ),
    Source(
        "graham-1969",
        "Bounds on multiprocessing timing anomalies, SIAM J. Appl. Math. 17",
        "Graham; Society for Industrial and Applied Mathematics",
        1969,
        "from memory",
        note="Why a shorter job can make a fixed list finish later.",
    ),
    Source(
        "mohring-1984",
        "Stochastic scheduling problems I: general strategies, ZOR 28",
        "Mohring, Radermacher and Weiss; Zeitschrift fur Operations Research",
        1984,
        "from memory",
        note="Why a policy and not a plan.",
    ),
    Source(
        "van-slyke-1963",
        "Monte Carlo methods and the PERT problem, Operations Research 11",
        "Van Slyke; Operations Research",
        1963,
        "from memory",
        note="The share of samples in which a job lies on the critical chain.",
    ),
    Source(
        "malcolm-1959",
        "Application of a technique for research and development program evaluation, "
        "Operations Research 7",
        "Malcolm, Roseboom, Clark and Fazar; Operations Research",
        1959,
        "from memory",
        note="Three-point estimates.",
    ),
    Source(
        "flyvbjerg-2006",
        "From Nobel Prize to project management: getting risks right, PMJ 37",
        "Flyvbjerg; Project Management Journal",
        2006,
        "from memory",
        note="A forecast drawn from a class of past cases rather than from the plan alone.",
    ),
    Source(
        "gneiting-raftery-2007",
        "Strictly proper scoring rules, prediction, and estimation, JASA 102",
        "Gneiting and Raftery; Journal of the American Statistical Association",
        2007,
        "from memory",
        note="How a forecast issued as a distribution is scored.",
    ),
    Source(
        "gelman-2013",
        "Bayesian Data Analysis, 3rd edition",
        "Gelman, Carlin, Stern, Dunson, Vehtari and Rubin; CRC Press",
        2013,
        "from memory",
        note="Conjugate learning: beta and binomial (2.4), gamma and exponential (2.6), normal and "
        "inverse gamma (3.3), the hierarchical normal (5.4), the linear model (14.2).",
    ),
    Source(
        "dawid-1984",
        "Statistical theory: the prequential approach, J. R. Statist. Soc. A 147",
        "Dawid; Royal Statistical Society",
        1984,
        "from memory",
        note="A forecast is judged by what was foretold before each case, and by evenly spread "
        "ranks.",
    ),
    Source(
        "williams-1992",
        "Criticality in stochastic networks, J. Opl Res. Soc. 43",
        "Williams; Operational Research Society",
        1992,
        "from memory",
        note="The significance and the cruciality index.",
    ),
    Source(
        "vanhoucke-2010",
        "Using activity sensitivity and network topology information to monitor project time "
        "performance, Omega 38",
        "Vanhoucke; Elsevier",
        2010,
        "read second-hand",
        note="Criticality, significance, cruciality and schedule sensitivity index side by side, "
        "and why a share of samples is no size of effect; the formulas are from memory.",
    ),
    Source(
        "law-2015",
        "Simulation Modeling and Analysis, 5th edition",
        "Law; McGraw-Hill",
        2015,
        "from memory",
        clause="section 11.2",
        note="Common random numbers: comparing two settings on the same luck.",
    ),
)
"""The sources of `bareshell.plan`."""
