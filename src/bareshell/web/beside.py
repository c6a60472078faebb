"""Work that takes its time, done beside the pages and kept, so that a page need not wait twice.

A question is asked once for each state of the build: whoever asks again gets what is already being
worked out. A page that would have to wait says so instead.
"""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from concurrent.futures import Future, ThreadPoolExecutor
from concurrent.futures import TimeoutError as NotYet
from typing import Final, TypeVar, cast

from bareshell.errors import Busy

PATIENCE_S: Final = 4.0
"""How long a person waits for a page before it says that it is still being worked out. [s]"""

PROGRAM_PATIENCE_S: Final = 120.0
"""How long a program waits for a twin. [s]"""

_KEPT_MOST: Final = 48
_Answer = TypeVar("_Answer")


class StillWorking(Busy):
    """Something is not worked out yet; the same question will be answered in a moment.

    Parameters
    ----------
    what : str
        What is being worked out.
    """

    def __init__(self, what: str = "the plan") -> None:
        super().__init__(f"{what} is still being worked out", "ask again in a moment")
        self.what = what


class Beside:
    """Hands that work beside the pages.

    Parameters
    ----------
    hands : int
        How many things at once.
    what : str
        What is worked out, for whoever has to wait: ``the plan``.
    """

    def __init__(self, hands: int, what: str) -> None:
        self._what = what
        self._kept: OrderedDict[Hashable, Future[object]] = OrderedDict()
        self._lock = threading.Lock()
        self._hands = ThreadPoolExecutor(hands, thread_name_prefix=what.replace(" ", "-"))

    def close(self) -> None:
        """Begin nothing more."""
        self._hands.shutdown(wait=False, cancel_futures=True)

    def begin(self, work: Callable[[], object]) -> None:
        """Do something beside the pages that nobody waits for.

        Raises
        ------
        RuntimeError
            When the pages are being closed.
        """
        self._hands.submit(work)

    def answer(self, question: Hashable, work: Callable[[], _Answer], wait_s: float) -> _Answer:
        """Answer a question, from what is kept if it was asked before.

        Parameters
        ----------
        question : hashable
            The state of the build, and what is asked of it.
        work : callable
            Works it out.
        wait_s : float
            How long to wait for it. [s]

        Raises
        ------
        StillWorking
            When it takes longer; it goes on being worked out.
        """
        future = self.asked(question, work)
        try:
            return cast("_Answer", future.result(wait_s))
        except NotYet as error:
            if future.done():  # the work itself ran out of time somewhere; that is an answer
                self._forget(question)
                raise
            raise StillWorking(self._what) from error
        except BaseException:
            self._forget(question)
            raise

    def asked(self, question: Hashable, work: Callable[[], object]) -> Future[object]:
        """Begin to answer a question unless somebody has asked it before."""
        with self._lock:
            future = self._kept.get(question)
            if future is None:
                future = self._kept[question] = self._hands.submit(work)
            self._kept.move_to_end(question)
            while len(self._kept) > _KEPT_MOST:
                self._kept.popitem(last=False)
        return future

    def newest(self, suits: Callable[[Hashable], bool]) -> object | None:
        """Return the answer last asked for among those that suit and are there; None for none.

        Parameters
        ----------
        suits : callable
            Whether a question suits.
        """
        with self._lock:
            kept = [self._kept[question] for question in reversed(self._kept) if suits(question)]
        went_well = (one for one in kept if one.done() and not one.cancelled())
        return next((one.result() for one in went_well if one.exception() is None), None)

    def _forget(self, question: Hashable) -> None:
        with self._lock:
            self._kept.pop(question, None)
