"""Sources read and marked by a pool: where they lie, or carried with their bytes to processes that see another disk."""

from collections.abc import Iterator, Sequence
from functools import partial

from bitepoint.marking.batch import Batch, read_and_mark
from bitepoint.marking.class_cars import ClassCars
from bitepoint.marking.processes import Pool
from bitepoint.marking.reading.carried import Carried, carried, in_a_folder, put_down
from bitepoint.marking.reading.handins import HandInSource


def marked_sources(sources: Sequence[HandInSource], cars: ClassCars, pool: Pool) -> Iterator[list[Batch]]:
    """Yield what each source came to, in their order."""
    if pool.same_disk:
        yield from pool.map(partial(read_and_mark, cars=cars), sources)
    else:
        yield from pool.map(partial(_carried_or_marked, cars=cars), (_piece(source, cars) for source in sources))


def _piece(source: HandInSource, cars: ClassCars) -> Carried | list[Batch]:
    """Return a source to be marked elsewhere, or, where it may be read here alone, what it came to."""
    return carried(source) or read_and_mark(source, cars)


def _carried_or_marked(piece: Carried | list[Batch], cars: ClassCars) -> list[Batch]:
    if not isinstance(piece, Carried):
        return piece
    with in_a_folder() as folder:
        return read_and_mark(put_down(piece, folder), cars)
