"""What else can be done in the state in which the tool in hand is: a small button for each."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QToolButton, QWidget

from plan_editor.desktop.folding_row import FoldingRow
from plan_editor.desktop.follow import until_gone
from plan_editor.drafting.tool import Answer, Offer
from plan_editor.session import Session


class Offers(FoldingRow):
    """``taken`` tells the name of an offer whose button was pressed."""

    taken = Signal(str)

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__("More that can be done now", parent)
        self.buttons: dict[str, QToolButton] = {}
        self._shown: tuple[Offer, ...] = ()
        until_gone(self, session.answered.connect(self._follow))
        self._show(session.answer.offers)

    def _follow(self, answer: Answer) -> None:
        if answer.offers != self._shown:
            self._show(answer.offers)

    def _show(self, offers: tuple[Offer, ...]) -> None:
        # the pointer moves all the time: buttons that stay are not made anew
        if list(map(_face, offers)) != list(map(_face, self._shown)):
            self.buttons = {o.name: self._made(o) for o in offers}
            self.show_buttons(tuple(self.buttons.values()))
        for offer in offers:
            self.buttons[offer.name].setChecked(offer.on)
            self.buttons[offer.name].setEnabled(offer.possible)
        self._shown = offers
        self.fold()

    def _made(self, offer: Offer) -> QToolButton:
        made = QToolButton(self)
        made.setText(f"{offer.title}  {offer.key}" if offer.key else offer.title)
        made.setToolTip(f"{offer.title}  ({offer.key})" if offer.key else offer.title)
        made.setAccessibleName(offer.title)
        made.setCheckable(True)
        made.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        made.setProperty("offer", offer.name)
        made.setProperty("keys", offer.key)
        made.clicked.connect(self._pressed)
        return made

    def _pressed(self) -> None:
        name = self.sender().property("offer")
        # whether it is in force, the tool says
        self.buttons[name].setChecked(not self.buttons[name].isChecked())
        self.taken.emit(name)


def _face(offer: Offer) -> tuple[str, str, str]:
    return offer.name, offer.title, offer.key
