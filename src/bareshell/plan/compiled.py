"""The compiler: turns the plain functions of `kernel` into one compiled walk, when asked to.

The first compile takes some seconds (`warm_up`); the result is kept in the folder that the shell
named before anything here ran, and loaded from there the next time. Where the compiler cannot be
used, `compiled_run` is None and the twin in `walk` answers instead.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from hashlib import blake2b
from types import FunctionType
from typing import TYPE_CHECKING, cast

from bareshell.plan import columns, kernel, kernel_jobs

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["compiled_run"]


# Handing a dozen tables from function to function, and counting who holds each, took three
# quarters of the time (measured): so everything is laid into one function, and nothing is counted.
# The tables are held by the caller throughout.
_OPTIONS = {"nogil": True, "error_model": "numpy", "_nrt": False}


@cache
def compiled_run() -> Callable[..., None] | None:
    """Give the compiled walk, or None where the compiler is not to be had.

    Returns
    -------
    run : callable, optional
        As `bareshell.plan.kernel.run`. It holds no lock while it runs, so two threads may.
    """
    try:
        from numba import njit
        from numba.core.errors import NumbaError
    except ImportError:
        return None
    # Each function is compiled against names that already stand for compiled ones, so that the
    # kernel itself stays plain Python that can be read, stepped through and tested.
    # Its own types do not know every option that it takes.
    jit = cast("Callable[..., Callable[[FunctionType], Callable[..., None]]]", njit)
    names = dict(vars(columns)) | dict(vars(kernel_jobs)) | dict(vars(kernel))
    fingerprint = _fingerprint(names)
    compiled: Callable[..., None] | None = None
    for function in kernel.KERNEL:
        plain = FunctionType(function.__code__, names, function.__name__)
        plain.__module__ = function.__module__
        # The kept code is looked up by this name: it changes with anything the walk is made of.
        plain.__qualname__ = f"{function.__name__}_{fingerprint}"
        options = _OPTIONS | {"forceinline": function not in kernel.SHARED}
        try:
            compiled = jit(cache=True, **options)(plain)
        except RuntimeError:
            # There is no folder to keep compiled code in: it is compiled anew each time.
            compiled = jit(**options)(plain)
        names[function.__name__] = compiled
    try:
        _walk_nowhere(compiled)
    except (NumbaError, OSError):
        # A compiler that does not fit this machine is as good as none.
        return None
    return compiled


def _walk_nowhere(run: Callable[..., None] | None) -> None:
    """Walk once with nothing to do: that is when the compiling is done."""
    import numpy as np

    def table(*shape: int) -> NDArray[np.int64]:
        return np.zeros(shape, dtype=np.int64)

    if run is not None:
        run(
            table(1, columns.NODE_COLUMNS),
            table(0, columns.EDGE_COLUMNS),
            table(0),
            table(1, columns.SESSION_COLUMNS),
            table(2, 1, 1),
            0,
            0,
            table(1),
            table(3),
            table(0),
            np.ones((1, 1), dtype=np.float32),
            table(1, 0),
            np.zeros((1, 1), dtype=np.int8),
            table(1),
            table(1, columns.STATE_COLUMNS),
            table(columns.SCALARS),
            table(1),
            table(2),
            *(table(9) for _ in range(5)),
        )


def _fingerprint(names: dict[str, object]) -> str:
    """Tell one version of the walk from another, by its code and the numbers it is built with."""
    digest = blake2b(digest_size=6)
    for function in kernel.KERNEL:
        code = function.__code__
        digest.update(code.co_code + repr((code.co_consts, code.co_names)).encode())
    numbers = sorted((name, value) for name, value in names.items() if isinstance(value, int))
    digest.update(repr(numbers).encode())
    return digest.hexdigest()
