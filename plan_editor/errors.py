"""Everything raised on purpose, as one drawn tree.

    PlanEditorError        its text is shown as it stands
    ├─ EditRefused         this plan cannot take this edit; nothing was changed
    ├─ FileProblem         about the plan's own file
    │  ├─ NotAPlan · NewerPlan · DamagedPlan · HostilePlan
    │  └─ PlanInUse · ChangedElsewhere · NoRoom · NotAllowed · NotThere
    ├─ CannotRead          a foreign file holds nothing that can be used
    ├─ CannotPrint         a sheet cannot be made as asked
    └─ CannotUse           what was typed or asked for makes no sense

Everything else is our bug.
"""


class PlanEditorError(Exception):
    """Its text is written for the user and is shown as it stands."""


class EditRefused(PlanEditorError):
    """This plan cannot take this edit; nothing was changed."""


class FileProblem(PlanEditorError):
    """The plan's own file cannot be opened, saved or trusted."""


class NotAPlan(FileProblem):
    """The file is something else."""


class NewerPlan(FileProblem):
    """The file was written by a later version of this program."""


class DamagedPlan(FileProblem):
    """The file was a plan once; parts of it are lost."""


class HostilePlan(FileProblem):
    """The file holds instructions that a plan never holds."""


class PlanInUse(FileProblem):
    """Somebody has the plan open.

    Args:
        text: as it is shown.
        may_take_over: whether nobody seems to hold it any longer, as far as can be told, so it
            may be taken over by consent.
    """

    def __init__(self, text: str, *, may_take_over: bool = False) -> None:
        super().__init__(text)
        self.may_take_over = may_take_over


class ChangedElsewhere(FileProblem):
    """The file on disk is no longer the one that was opened."""


class NoRoom(FileProblem):
    """The disk is full."""


class NotAllowed(FileProblem):
    """The file or folder may not be written or read."""


class NotThere(FileProblem):
    """There is no file of that name."""


class CannotRead(PlanEditorError):
    """A foreign file holds nothing that can be used."""


class CannotPrint(PlanEditorError):
    """A sheet cannot be made as it was asked for."""


class CannotUse(PlanEditorError):
    """What was typed or asked for makes no sense here."""
