"""The verb ``schedule``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument(
        "name", metavar="NAME", nargs="?", help="one of those that --list tells"
    )
    parser.add_argument("plan", metavar="PLAN", nargs="?")
    parser.add_argument("-o", "--out", metavar="OUT", help="ends in .pdf, .xlsx or .csv")
    parser.add_argument("--list", action="store_true", help="say which schedules there are")
    parser.add_argument("--on", metavar="YYYY-MM-DD", help="as known then; today if not given")
    parser.add_argument("--maker", default="", metavar="NAME", help="who made it, on a PDF")
    parser.add_argument(
        "--contacts", action="store_true", help="with the names of living people"
    )


VERB = Verb(
    name="schedule",
    title="write a schedule as PDF, workbook or CSV",
    arguments=_arguments,
    run=late("plan_editor.cli.schedules", "schedule", unlike),
    order=51,
)
