"""Sources read and marked by a pool: where they lie, or carried with their bytes to processes that see another disk."""

from collections.abc import Iterator, Sequence
from functools import partial
from itertools import chain

from bitepoint.marking.batch import Batch, packed, read_and_mark, read_and_mark_all
from bitepoint.marking.class_cars import ClassCars
from bitepoint.marking.processes import Pool, ever_fewer
from bitepoint.marking.reading.carried import Carried, carried, in_a_folder, put_down
from bitepoint.marking.reading.handins import HandInSource
from bitepoint.marking.right_figures import keep_figures

_SOURCES_TOGETHER = 16


def marked_sources(sources: Sequence[HandInSource], cars: ClassCars, pool: Pool) -> Iterator[list[Batch]]:
    """Yield what each source came to, in their order; right figures that other processes drew are known here then."""
    for batches in _marked(sources, cars, pool):
        if pool.count > 1:
            for batch in batches:
                keep_figures(batch.figures)
        yield batches


def _marked(sources: Sequence[HandInSource], cars: ClassCars, pool: Pool) -> Iterator[list[Batch]]:
    if not pool.same_disk:
        return pool.map(partial(_carried_or_marked, cars=cars), (_piece(source, cars) for source in sources))
    if pool.count < 2:
        return read_and_mark_all(sources, cars)
    together = ever_fewer(sources, pool.count, _SOURCES_TOGETHER)
    return chain.from_iterable(pool.map(partial(_marked_together, cars=cars), together, at_once=1))


def _marked_together(sources: Sequence[HandInSource], cars: ClassCars) -> list[list[Batch]]:
    """Return what some sources came to, their lines as they go to another process: what waits there is small."""
    return [[packed(batch) for batch in batches] for batches in read_and_mark_all(sources, cars)]


def _piece(source: HandInSource, cars: ClassCars) -> Carried | list[Batch]:
    """Return a source to be marked elsewhere, or, where it may be read here alone, what it came to."""
    return carried(source) or read_and_mark(source, cars)


def _carried_or_marked(piece: Carried | list[Batch], cars: ClassCars) -> list[Batch]:
    if not isinstance(piece, Carried):
        return piece
    with in_a_folder() as folder:
        return read_and_mark(put_down(piece, folder), cars)
