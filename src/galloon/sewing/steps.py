"""The sewing order of a garment: every operation it needs, sorted, as numbered steps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from galloon.pieces import Garment
from galloon.sewing.bench import Bench, Operation
from galloon.sewing.model import Step
from galloon.sewing.operations import BUILDERS, finishing, left_over
from galloon.sewing.order import in_order


def sewing_steps(garment: Garment) -> tuple[Step, ...]:
    """Numbered steps, sorted so that none needs an edge that is already closed; always the same for a garment."""
    bench = Bench(garment)
    operations = [operation for builder in BUILDERS for operation in builder(bench)]
    operations += left_over(bench, operations)
    operations = [_known(operation, bench) for operation in (*operations, finishing(bench))]
    first = {operation.key for operation in operations if operation.stage == 0}
    linked = [
        operation if operation.stage == 0 else replace(operation, after=(*operation.after, *sorted(first)))
        for operation in operations
    ]
    return tuple(_step(number, *placed) for number, placed in enumerate(in_order(linked), 1))


def _known(operation: Operation, bench: Bench) -> Operation:
    """The operation with only such edges as are there, each once."""

    def there(keys: Sequence[str]) -> tuple[str, ...]:
        return tuple(dict.fromkeys(key for key in keys if key in bench.sewable))

    return replace(
        operation,
        closes=there(operation.closes),
        begins=there(operation.begins),
        free=there(operation.free),
        closed=there(operation.closed),
        works=there(operation.works),
    )


def _step(number: int, operation: Operation, needs: tuple[int, ...]) -> Step:
    return Step(
        number,
        operation.key,
        operation.title,
        operation.do,
        needs,
        operation.pieces,
        operation.closes,
        operation.begins,
        operation.free,
        operation.closed,
        operation.works or operation.closes,
        operation.spots,
        operation.sewn.stitch,
        operation.seam_class,
        operation.sewn.setting,
        operation.care.allowance,
        operation.care.trimming,
        operation.care.pressing,
    )
