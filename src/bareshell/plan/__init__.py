"""Plan: what to do tonight, the road ahead, the forecast, and what stands in the way.

One policy simulator answers every question (`walk` in plain words, `kernel` compiled), so the
answers cannot contradict one another; `checker` reads the rules independently and sees every
answer before it is shown. Everything here takes a `PlanProblem` and gives back frozen results::

    from bareshell.plan.problem import PlanProblem     what is asked
    from bareshell.plan.sessions import SessionSource  the garage time there is
    from bareshell.plan.validate import validate       what stands in the way
    from bareshell.plan.tonight import tonight         the list for this session
    from bareshell.plan.asitis import AsItIs           the session as it really is
    from bareshell.plan.reasons import why_not         why a job is not on it
    from bareshell.plan.road import road               every session to the road, and the dates
    from bareshell.plan.bound import bound, gap        what no order of jobs can beat, and how far
    from bareshell.plan.tuning import tuned_rule       the rule fitted to one build, out of sample
    from bareshell.plan.exact import pack_tonight      the evening packed exactly, by a solver
    from bareshell.plan.engine import warm_up          compile once, with a message
"""
