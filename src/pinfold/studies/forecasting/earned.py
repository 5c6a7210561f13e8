"""Earned value with its working, and how much of each task should be done by now."""

from __future__ import annotations

import math
from collections.abc import Mapping
from datetime import date

from pinfold.findings import Step, work
from pinfold.formulas import earned_value
from pinfold.plan.people import People
from pinfold.studies.days.days_off import days_of_week
from pinfold.studies.days.records import Job
from pinfold.studies.forecasting.records import Earned
from pinfold.units import Ratio, Second


def earned(*, budget: float, planned: float, done: float, told: float, spent: float, besides: float = 0.0) -> Earned:
    """Earned value of hours or of money.

    What is done and not told of counts as if it had taken what was planned. The cost index holds only like against
    like: what is told of and what that took.

    Args:
        budget: planned for all of it
        planned: planned by now
        done: planned for what is done; never more than the budget
        told: of it, that of which the log tells what it took
        spent: what that took
        besides: spent on what the log does not tell, or on no work of the plan
    """
    done = min(done, budget)
    told = min(told, done)
    all_spent = spent + besides + done - told
    steps = [
        work(earned_value.cost_difference, earned=told, spent=spent),
        work(earned_value.schedule_difference, earned=done, planned=planned),
        work(earned_value.at_completion_as_planned, budget=budget, earned=done, spent=all_spent),
    ]
    cost = _step(steps, work(earned_value.cost_index, earned=told, spent=spent) if spent > 0 else None)
    pace = _step(steps, work(earned_value.schedule_index, earned=done, planned=planned) if planned > 0 else None)
    by_index = _step(steps, work(earned_value.at_completion, budget=budget, cost_index=cost) if cost else None)
    by_both = _step(steps, work(
        earned_value.at_completion_by_both, budget=budget, earned=done, spent=all_spent, cost_index=cost,
        schedule_index=pace,
    ) if cost and pace else None)  # fmt: skip
    goal = _step(steps, work(
        earned_value.index_to_complete, budget=budget, earned=done, spent=all_spent, goal=budget
    ) if budget > all_spent else None)  # fmt: skip
    return Earned(
        budget=budget, planned=planned, earned=done, told=told, spent=spent, besides=besides,
        cost_difference=steps[0].number, schedule_difference=steps[1].number, cost_index=cost, schedule_index=pace,
        by_index=by_index, as_planned=steps[2].number, by_both=by_both, index_to_complete=goal, working=tuple(steps),
    )  # fmt: skip


def working_in(found: Earned, size: float) -> tuple[Step, ...]:
    """The working with all amounts in a larger unit.

    Args:
        found: in seconds or in the smallest coin
        size: of the larger unit in that
    """
    budget, planned, done, told, spent, besides = (
        each / size for each in (found.budget, found.planned, found.earned, found.told, found.spent, found.besides)
    )
    return earned(budget=budget, planned=planned, done=done, told=told, spent=spent, besides=besides).working


def _step(steps: list[Step], step: Step | None) -> float | None:
    if step is None:
        return None
    steps.append(step)
    return step.number


def due_by(job: Job, people: People, first: date | None, today: date) -> tuple[Second, Mapping[str, Ratio]]:
    """Time that should be worked by a day, and the share of each task still to be done then, in the job's order.

    The plan's people work every day of the plan's week from the first day with work on.

    Args:
        job: tasks with the norms' times
        people: of the plan
        first: first day with work; None where there is none
        today: the day
    """
    days = days_of_week(first, today, people.weekdays) if first is not None and today >= first else 0
    due = min(days * people.count * people.hours, job.labor)
    gone, left = 0.0, {}
    for task in job.tasks:
        labor = job.paces[task.key].labor
        if math.isfinite(labor) and labor > 0:
            left[task.key] = 1.0 - min(max((due - gone) / labor, 0.0), 1.0)
            gone += labor
    return due, left
