"""Plan: what to do tonight, the road ahead, the forecast, and what stands in the way.

One policy simulator answers every question (`walk` in plain words, `kernel` compiled), so the
answers cannot contradict one another; `checker` reads the rules independently and sees every
answer before it is shown. Everything here takes a `PlanProblem` and gives back frozen results.
"""
