"""The verb ``restore``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument(
        "--from",
        dest="date",
        metavar="DATE",
        help="the newest copy of that day or before, YYYY-MM-DD; else the last Save but one",
    )


VERB = Verb(
    name="restore",
    title="put back an earlier copy of the plan",
    arguments=_arguments,
    run=late("plan_editor.cli.changing", "restore", unlike),
    order=62,
)
