"""The change types: every way a build can change, one small typed fact each.

A new one goes here, gets a fold in ``model.fold``, a check in ``model.decide`` and, when its
shape ever changes, an up-caster in the journal's wire form.
"""

from bareshell.model.changes.base import CHANGES as CHANGES
from bareshell.model.changes.base import Change as Change
from bareshell.model.changes.brake import BrakeLineDropped as BrakeLineDropped
from bareshell.model.changes.brake import BrakeLineSet as BrakeLineSet
from bareshell.model.changes.brake import BrakePartDropped as BrakePartDropped
from bareshell.model.changes.brake import BrakePartSet as BrakePartSet
from bareshell.model.changes.brake import BrakeReadingTaken as BrakeReadingTaken
from bareshell.model.changes.brake import BrakeSystemDropped as BrakeSystemDropped
from bareshell.model.changes.brake import BrakeSystemSet as BrakeSystemSet
from bareshell.model.changes.brake import YardsticksChosen as YardsticksChosen
from bareshell.model.changes.car import CarDescribed as CarDescribed
from bareshell.model.changes.car import CarPlaced as CarPlaced
from bareshell.model.changes.car import GarageDescribed as GarageDescribed
from bareshell.model.changes.car import SupportDropped as SupportDropped
from bareshell.model.changes.car import SupportMoveSet as SupportMoveSet
from bareshell.model.changes.car import SupportSet as SupportSet
from bareshell.model.changes.job import JobDoneBefore as JobDoneBefore
from bareshell.model.changes.job import JobFinished as JobFinished
from bareshell.model.changes.job import JobLeftOut as JobLeftOut
from bareshell.model.changes.job import JobNotDone as JobNotDone
from bareshell.model.changes.job import JobSet as JobSet
from bareshell.model.changes.job import JobStarted as JobStarted
from bareshell.model.changes.job import JobTakenIn as JobTakenIn
from bareshell.model.changes.job import JobTakenOff as JobTakenOff
from bareshell.model.changes.job import JobWorked as JobWorked
from bareshell.model.changes.looked import ItemLookedAt as ItemLookedAt
from bareshell.model.changes.looked import MilesRead as MilesRead
from bareshell.model.changes.part import ExchangeReturned as ExchangeReturned
from bareshell.model.changes.part import GoodsChecked as GoodsChecked
from bareshell.model.changes.part import HoldingDropped as HoldingDropped
from bareshell.model.changes.part import HoldingSet as HoldingSet
from bareshell.model.changes.part import NeedDropped as NeedDropped
from bareshell.model.changes.part import NeedNotHere as NeedNotHere
from bareshell.model.changes.part import NeedSet as NeedSet
from bareshell.model.changes.part import OrderCancelled as OrderCancelled
from bareshell.model.changes.part import OrderExpected as OrderExpected
from bareshell.model.changes.part import OrderSet as OrderSet
from bareshell.model.changes.proof import ProofBegun as ProofBegun
from bareshell.model.changes.proof import ProofFailed as ProofFailed
from bareshell.model.changes.proof import ProofHeld as ProofHeld
from bareshell.model.changes.proof import ProofSet as ProofSet
from bareshell.model.changes.proof import ProofSpent as ProofSpent
from bareshell.model.changes.proof import ProofSubstituted as ProofSubstituted
from bareshell.model.changes.proof import ProofUncovered as ProofUncovered
from bareshell.model.changes.record import DepartureReturned as DepartureReturned
from bareshell.model.changes.record import DepartureSet as DepartureSet
from bareshell.model.changes.record import ExceptionSet as ExceptionSet
from bareshell.model.changes.record import ForecastIssued as ForecastIssued
from bareshell.model.changes.record import GatePassed as GatePassed
from bareshell.model.changes.record import GateSet as GateSet
from bareshell.model.changes.record import LessonLearned as LessonLearned
from bareshell.model.changes.record import NoteWritten as NoteWritten
from bareshell.model.changes.record import PatternDropped as PatternDropped
from bareshell.model.changes.record import PatternSet as PatternSet
from bareshell.model.changes.record import PhotoKept as PhotoKept
from bareshell.model.changes.record import SessionHeld as SessionHeld
from bareshell.model.changes.record import Settled as Settled
from bareshell.model.changes.record import TempCleared as TempCleared
from bareshell.model.changes.record import TempRaised as TempRaised
from bareshell.model.changes.record import TempSet as TempSet
from bareshell.model.changes.record import Withdrawn as Withdrawn
from bareshell.model.changes.unread import Unread as Unread
