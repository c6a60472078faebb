"""Parts and fixings judged: does this fit there, may that stand in for it, what is asked first.

Everything here takes specifications and plain figures and gives back frozen values: the verdict in
a word, and line by line what was compared, with its arithmetic and source. Nothing here knows of a
build; `bareshell.whole` brings needs and holdings. A verdict speaks of sizes and sums only: what it
does not see (wear, cracks, a hammered hole, a false mark) is for eyes and fingers at the bench.
"""

from bareshell.parts.fit import Fit, FitLine, FitWord, check_fit
from bareshell.parts.matching import Matches, match_all
from bareshell.parts.questions import Question, questions
from bareshell.parts.rules import RULES, FieldRule

__all__ = [
    "RULES",
    "FieldRule",
    "Fit",
    "FitLine",
    "FitWord",
    "Matches",
    "Question",
    "check_fit",
    "match_all",
    "questions",
]
