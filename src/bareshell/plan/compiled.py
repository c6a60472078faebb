"""The compiler: turns the plain functions of `kernel` into one compiled walk, when asked to.

The first compile takes some seconds (`warm_up`); the result is kept in the folder that the shell
named before anything here ran, and loaded from there the next time. Where the compiler cannot be
used, `compiled_run` is None and the twin in `walk` answers instead.

The tables are handed over as bare addresses: the compiler then has nobody to count who holds
them, which took three quarters of the time (measured). The caller holds them throughout.
"""

from __future__ import annotations

import ctypes
from collections.abc import Callable
from contextlib import suppress
from functools import cache
from hashlib import blake2b
from types import FunctionType
from typing import TYPE_CHECKING, Any

from bareshell.plan import columns, kernel, kernel_jobs, kernel_session, kernel_work
from bareshell.plan.columns import (
    EDGE_COLUMNS,
    GIVEN,
    KINDS,
    KNOBS,
    NODE_COLUMNS,
    PIECE_COLUMNS,
    SCALARS,
    SESSION_COLUMNS,
    STATE_COLUMNS,
)
from bareshell.plan.kernel import run

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Table = NDArray[Any]
    Address = object

__all__ = ["Run", "compiled_run"]

Run = Callable[..., None]
"""As `bareshell.plan.kernel.run`."""

SIZES = 16
TABLES = 23


@cache
def compiled_run() -> Run | None:
    """Give the compiled walk, or None where the compiler is not to be had.

    Returns
    -------
    run : callable, optional
        As `bareshell.plan.kernel.run`. It holds no lock while it runs, so two threads may.
    """
    try:
        address = _compile()
    except (ImportError, OSError):
        return None
    if address is None:
        return None
    called = ctypes.CFUNCTYPE(None, *[ctypes.c_void_p] * (TABLES + 1))(address)

    def compiled(*tables: Table) -> None:
        """Hand the tables over by address; they are kept alive by whoever called."""
        sizes = _sizes(tables)
        called(sizes.ctypes.data, *(table.ctypes.data for table in tables))

    return compiled


def _sizes(tables: tuple[Table, ...]) -> NDArray[np.int64]:
    """Say how large the tables are, in the order in which `_entry` reads it."""
    import numpy as np

    nodes, edges, wanted, sessions, changes = tables[:5]
    forced, factor, arrives, people = tables[8:12]
    pieces, opened = tables[14], tables[16]
    out = np.zeros(SIZES, dtype=np.int64)
    out[:12] = (
        nodes.shape[0],
        edges.shape[0],
        wanted.shape[0],
        sessions.shape[0],
        changes.shape[1],
        changes.shape[2],
        opened.shape[0],
        forced.shape[0],
        factor.shape[0],
        arrives.shape[1],
        people.shape[1],
        pieces.shape[0],
    )
    return out


def _without_linear_algebra() -> None:
    """Keep the compiler from fetching what only linear algebra wants: half its time to load.

    As it starts it looks for a library that multiplies matrices, and brings much of scipy in with
    it; it does without where there is none, and the walk multiplies no matrix (measured: 0.15 s).
    """
    from numba.np import linalg

    looking = linalg.ensure_blas

    def none_here() -> None:
        raise ImportError("the walk needs no linear algebra")

    linalg.ensure_blas = none_here
    try:
        import numba.np.arraymath  # noqa: F401 - it looks once, as it is imported
    finally:
        linalg.ensure_blas = looking


def _compile() -> int | None:
    """Compile the walk, or load what was kept; give its address."""
    with suppress(ImportError, AttributeError):
        _without_linear_algebra()
    from numba import carray, cfunc, types  # type: ignore[attr-defined]
    from numba.core.errors import NumbaError

    # Each function is compiled against names that already stand for compiled ones, so that the
    # kernel itself stays plain Python that can be read, stepped through and tested.
    names: dict[str, Any] = {"laid": carray}
    for module in (columns, kernel_jobs, kernel_work, kernel_session, kernel):
        names |= vars(module)
    names |= {"SIZES": SIZES}
    fingerprint = _fingerprint(names)
    for function in kernel.KERNEL:
        plain = FunctionType(function.__code__, names, function.__name__)
        names[function.__name__] = _laid_in(plain)
    entry = FunctionType(_entry.__code__, names, "entry")
    entry.__module__ = __name__
    # The kept code is looked up by this name: it changes with anything the walk is made of.
    entry.__qualname__ = f"entry_{fingerprint}"
    whole, half, byte = (
        types.CPointer(kind)  # type: ignore[no-untyped-call]
        for kind in (types.int64, types.float32, types.int8)
    )
    pointers = [whole] * (TABLES + 1)
    pointers[10], pointers[12] = half, byte
    signature = types.void(*pointers)
    try:
        try:
            return cfunc(signature, cache=True, error_model="numpy")(entry).address
        except RuntimeError:
            # There is no folder to keep compiled code in: it is compiled anew each time.
            return cfunc(signature, error_model="numpy")(entry).address
    except NumbaError:
        # A compiler that does not fit this machine is as good as none.
        return None


def _laid_in(plain: FunctionType) -> object:
    """Compile a function only to be laid into its caller.

    What is called with a dozen tables costs more than it does; and what is called only from
    compiled code needs no way in from elsewhere, which takes as long to compile again.
    """
    from numba import njit

    inside: dict[str, Any] = {"no_cpython_wrapper": True, "no_cfunc_wrapper": True}
    try:
        return njit(nogil=True, error_model="numpy", forceinline=True, **inside)(plain)
    except KeyError:
        # A compiler that does not know these does without.
        return njit(nogil=True, error_model="numpy")(plain)


def laid(address: Address, shape: tuple[int, ...]) -> Table:
    """Stand for the compiler's own word for a table at an address."""
    raise TypeError(f"only compiled code reads a table of {shape} at {address}")


def _entry(
    given_sizes: Address,
    nodes: Address,
    edges: Address,
    wanted: Address,
    sessions: Address,
    changes: Address,
    given: Address,
    priority: Address,
    knobs: Address,
    forced: Address,
    factor: Address,
    arrives: Address,
    people: Address,
    finish: Address,
    state: Address,
    pieces: Address,
    scalars: Address,
    opened: Address,
    gates: Address,
    kind_minutes: Address,
    kind_samples: Address,
    job_samples: Address,
    part_samples: Address,
    part_minutes: Address,
) -> None:
    """Lay the tables over their addresses and walk."""
    size = laid(given_sizes, (SIZES,))
    nodes_there, jobs, samples, parts, ahead = size[0], size[6], size[8], size[9], size[3]
    run(
        laid(nodes, (nodes_there, NODE_COLUMNS)),
        laid(edges, (size[1], EDGE_COLUMNS)),
        laid(wanted, (size[2],)),
        laid(sessions, (ahead, SESSION_COLUMNS)),
        laid(changes, (2, size[4], size[5], size[5])),
        laid(given, (GIVEN,)),
        laid(priority, (jobs,)),
        laid(knobs, (KNOBS,)),
        laid(forced, (size[7],)),
        laid(factor, (samples, jobs)),
        laid(arrives, (samples, parts)),
        laid(people, (samples, size[10])),
        laid(finish, (samples,)),
        laid(state, (nodes_there, STATE_COLUMNS)),
        laid(pieces, (size[11], PIECE_COLUMNS)),
        laid(scalars, (SCALARS,)),
        laid(opened, (jobs,)),
        laid(gates, (nodes_there,)),
        laid(kind_minutes, (KINDS,)),
        laid(kind_samples, (KINDS,)),
        laid(job_samples, (jobs,)),
        laid(part_samples, (parts,)),
        laid(part_minutes, (parts,)),
    )


def _fingerprint(names: dict[str, object]) -> str:
    """Tell one version of the walk from another, by its code and the numbers it is built with."""
    digest = blake2b(digest_size=6)
    for function in (*kernel.KERNEL, _entry):
        code = function.__code__
        digest.update(code.co_code + repr((code.co_consts, code.co_names)).encode())
    numbers = sorted((name, value) for name, value in names.items() if isinstance(value, int))
    digest.update(repr(numbers).encode())
    return digest.hexdigest()
