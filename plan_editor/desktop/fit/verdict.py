"""What the fit comes to: which kind is best, what was found, which point is doubtful."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QWidget

from plan_editor.commands.control import (
    Trial,
    lines,
    model_lines,
    suspect,
    suspicion,
    words,
)
from plan_editor.commands.residuals import factor_words
from plan_editor.desktop.parts import Choice, button, column, row, text
from plan_editor.desktop.theme import STEP
from plan_editor.survey.fits.models import Model

AUTOMATIC = "Automatic"
NOT_YET = "needs more points"
MEANS = {
    Model.SIMILARITY: "shifted, turned and scaled",
    Model.AFFINE: "stretched and skewed as well",
    Model.PROJECTIVE: "undoes a picture taken at a slant",
    Model.WARP: "follows paper stretched here and there",
}
FIGURES = "The figure of each kind is what a point left out of the fit is missed by."


class Verdict(QWidget):
    """``turned`` tells that another kind was chosen, ``leave_out`` which point to leave out.

    What was found stands in a part of its own, ``told``, that can be laid out apart.
    """

    turned = Signal()
    leave_out = Signal(int)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._suspect: int | None = None
        self._kind = QWidget(self)
        across = row(self._kind)
        across.addWidget(text(self._kind, "Kind of fit", "soft"))
        self.models = Choice(self._kind)
        across.addWidget(self.models, 1)
        self.models.setAccessibleName("Kind of fit")
        self.models.activated.connect(self._turn)
        self._suspicion = text(self, "", "danger")
        self.without = button(self, "Leave it out", self._leave_out)
        self._figures = text(self, FIGURES, "soft")
        self.told = QWidget(parent)
        self._words = text(self.told, "")
        self._arrows = text(self.told, "", "soft")
        down = column(self, space=2 * STEP)
        for part in (self._suspicion, self.without, self._kind, self._figures):
            down.addWidget(part)
        below = column(self.told, space=2 * STEP)
        for part in (self._arrows, self._words):
            below.addWidget(part)
        self.models.addItem(AUTOMATIC, None)
        for model in Model:
            self.models.addItem(model.value, model)

    @property
    def model(self) -> Model | None:
        """The kind that was chosen; None for the best."""
        found = self.models.currentData()
        return None if found is None else Model(found)

    def begin(self, model: Model | None) -> None:
        """Choose a kind to start with."""
        self.models.setCurrentIndex(0 if model is None else 1 + list(Model).index(model))

    def show_trial(self, trial: Trial) -> None:
        """Show what some points make of it."""
        self._kind.setVisible(bool(trial.fits))
        self._figures.setVisible(any(missed for _, missed in model_lines(trial)))
        self._name_models(trial)
        self._suspect = suspect(trial)
        _say(self._suspicion, suspicion(trial))
        self.without.setVisible(self._suspect is not None)
        if self._suspect is not None:
            name = lines(trial)[self._suspect].name
            self.without.setText(f"Leave {name} out")
            self.without.setAccessibleName(f"Leave {name} out")
        _say(self._words, " ".join(words(trial)))
        _say(self._arrows, factor_words(trial))

    def _name_models(self, trial: Trial) -> None:
        told = dict(model_lines(trial))
        best = "" if trial.advised is None else f": {trial.advised.value}"
        self.models.setItemText(0, f"{AUTOMATIC}{best}{_figure(_of(told, trial.advised))}")
        for n, model in enumerate(Model, 1):
            figure = _figure(told[model]) if model in told else f", {NOT_YET}"
            self.models.setItemText(n, f"{model.value.capitalize()}{figure}")
            self.models.setItemData(
                n, f"{MEANS[model].capitalize()}.", Qt.ItemDataRole.ToolTipRole
            )

    def _turn(self, index: int) -> None:
        del index
        self.turned.emit()

    def _leave_out(self) -> None:
        if self._suspect is not None:
            self.leave_out.emit(self._suspect)


def _of(told: dict[Model, str], model: Model | None) -> str:
    return "" if model is None else told[model]


def _figure(missed: str) -> str:
    return f", {missed}" if missed else ""


def _say(label: QLabel, sentence: str) -> None:
    label.setText(sentence)
    label.setVisible(bool(sentence))
