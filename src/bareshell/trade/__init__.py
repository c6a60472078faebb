"""The trade: what putting a car together takes, before anybody says anything about this car.

The starter network (jobs, proofs, temps, gates, needs), the supports a garage may have, and the
few questions that turn both into a first build. All of it is common practice, no source, and
there to be edited; the vehicle's own manual and local law outrank it.
"""

from bareshell.trade.answers import Answers as Answers
from bareshell.trade.answers import read_answers as read_answers
from bareshell.trade.beginning import first_changes as first_changes
from bareshell.trade.frontier import corrections as corrections
from bareshell.trade.frontier import frontier as frontier
from bareshell.trade.network import Starter as Starter
from bareshell.trade.network import starter as starter
from bareshell.trade.questions import QUESTIONS as QUESTIONS
