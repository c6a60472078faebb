"""Proofs beyond how each one stands: the way through a gate, the way back, what was tightened.

How a proof stands is read in `bareshell.model.standing`. Here stand the questions asked of many at
once: the shortest way through a gate, what a return to standard would take, the torque sheet, the
re-checks that miles and months bring, the rehearsal of an inspection, and what lies loose or open
when a session ends. Nothing here closes a proof; only evidence does.
"""
