"""Everything raised on purpose, as the tree in the module's docstring draws it."""

import inspect
import re

from plan_editor import errors


def classes() -> dict[str, type]:
    return dict(inspect.getmembers(errors, inspect.isclass))


def test_the_tree_that_is_drawn_is_the_tree_that_is() -> None:
    drawn = set(re.findall(r"\b[A-Z][a-z]+[A-Z]\w+", errors.__doc__ or ""))
    assert drawn == set(classes())


def test_everything_is_an_error_of_this_program() -> None:
    assert all(issubclass(c, errors.PlanEditorError) for c in classes().values())


def test_what_concerns_the_file_stands_under_it() -> None:
    under = {n for n, c in classes().items() if issubclass(c, errors.FileProblem)}
    assert under == {
        "FileProblem",
        *("NotAPlan", "NewerPlan", "DamagedPlan", "HostilePlan"),
        *("PlanInUse", "ChangedElsewhere", "NoRoom", "NotAllowed", "NotThere"),
    }


def test_a_plan_in_use_may_be_free_to_take_over() -> None:
    assert not errors.PlanInUse("Open elsewhere.").may_take_over
    assert errors.PlanInUse("Open elsewhere.", may_take_over=True).may_take_over
