"""The coats of one stretch as tasks, face by face, each after the one under it."""

from __future__ import annotations

from pinfold.logbook.works import Work
from pinfold.plan.buildups import Coat, Faces
from pinfold.studies.days import waits
from pinfold.studies.days.counted import Counted
from pinfold.studies.days.ground_tasks import last_of
from pinfold.studies.days.records import Link, Measures, Task
from pinfold.studies.quantities.coats import coated_area
from pinfold.studies.quantities.reach import Reach
from pinfold.tables.shelf import shelf
from pinfold.units import SQUARE_METER, Meter, SquareMeter, show

_FACES = {Faces.BOTH: ("outer", "inner"), Faces.OUTER: ("outer",), Faces.INNER: ("inner",)}


def coat_tasks(reach: Reach, counted: Counted, wall: tuple[Task, ...]) -> tuple[Task, ...]:
    """Every coat on every face of a stretch.

    Args:
        reach: the stretch
        counted: take-off and cards
        wall: what stands before
    """
    tasks: list[Task] = []
    under: dict[str, tuple[str, Coat]] = {}
    for number, coat in enumerate(reach.stretch.buildup.coats, start=1):
        for face in _FACES[coat.faces]:
            if face in under:
                key, below = under[face]
                after: tuple[Link, ...] = (waits.next_coat(key, below),)
            else:
                after = _first(wall)
            tasks.append(_coat(reach, coat, number, face=face, counted=counted, after=after))
            under[face] = tasks[-1].key, coat
    return tuple(tasks)


def _first(wall: tuple[Task, ...]) -> tuple[Link, ...]:
    """A first coat waits for the wall to shrink, for the ground beside it, and for the coping over it."""
    links = [waits.first_coat(last_of(wall, Work.GROUT, Work.LAY))]
    links += [waits.just(task.key) for task in wall if task.work is Work.BACKFILL]
    links += [waits.overnight(task.key, "the coping sets") for task in wall if task.work is Work.COPING]
    return tuple(links)


def _coat(
    reach: Reach, coat: Coat, number: int, *, face: str, counted: Counted, after: tuple[Link, ...]
) -> Task:  # fmt: skip
    area = face_area(reach, coat, face)
    whole = coated_area(reach, coat)
    place, amount = reach.stretch.name, Measures(m=reach.stretch.length, m2=area)
    line = _line(reach, counted, number)
    ends = ", ends and top with it" if face == _FACES[coat.faces][-1] and coat.faces is Faces.BOTH else ""
    return Task(
        key=f"{Work.COAT} {place} {face} {number}", work=Work.COAT,
        says=f"{coat.kind.says}, {show(area, SQUARE_METER, reach.system)} of the {face} face{ends}", place=place,
        face=face, coat=coat.kind.name, layer="coat", measures=amount,
        norms=((_row(coat.thickness), Measures(m2=area)),),
        doses=counted.doses(line, area / whole if whole > 0 else 0.0), after=after,
        wet_for=coat.kind.value("wet_cure") if coat.kind.has("wet_cure") else 0.0,
    )  # fmt: skip


def face_area(reach: Reach, coat: Coat, face: str) -> SquareMeter:
    """Of a coat on one face; ends, steps and top go with the face that is laid last."""
    whole = coated_area(reach, coat)
    if coat.faces is not Faces.BOTH:
        return whole
    outer = max(reach.shown_area, 0.0) * reach.stretch.outer / reach.stretch.length
    return outer if face == "outer" else whole - outer


def _line(reach: Reach, counted: Counted, number: int) -> tuple:  # type: ignore[type-arg]
    """The line of the take-off for a coat: they stand there in the order laid."""
    coats = [line for line in counted.lines(reach.stretch.name, "coat") if line.kind.shelf == "mixes"]
    return (coats[number - 1],)


def _row(thickness: Meter) -> str:
    """The row of shelf `labor` for a coat so thick."""
    rows = [row for row in shelf("labor").values() if row.name.startswith("coat")]
    fitting = [row for row in rows if row.has("up_to") and thickness <= row.value("up_to") + 1e-9]
    return min(fitting, key=lambda row: row.value("up_to")).name if fitting else "coat"
