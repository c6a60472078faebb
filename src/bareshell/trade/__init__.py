"""The trade: what putting a car together takes, before anybody says anything about this car.

The starter network (jobs, proofs, temps, gates, needs), the supports a garage may have, and the
few questions that turn both into a first build. All of it is common practice, no source, and
there to be edited; the vehicle's own manual and local law outrank it.
"""
