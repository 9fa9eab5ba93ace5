"""The verb ``calendar``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument("-o", "--out", required=True, metavar="OUT.ics")
    parser.add_argument("--on", metavar="YYYY-MM-DD", help="as known then; today if not given")


VERB = Verb(
    name="calendar",
    title="write what is due as a calendar (iCalendar)",
    arguments=_arguments,
    run=late("plan_editor.cli.calendars", "calendar", unlike),
    order=52,
)
