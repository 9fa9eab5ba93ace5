"""The verb ``reserve``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument("space", metavar="SPACE", help="a grave, ashes plot or vault: C 14")
    parser.add_argument("--faculty", required=True, metavar="NO", help="its number")
    parser.add_argument(
        "--until", required=True, metavar="YYYY-MM-DD", help="its last day, as the faculty says"
    )


VERB = Verb(
    name="reserve",
    title="reserve a space by faculty",
    arguments=_arguments,
    run=late("plan_editor.cli.reserving", "run", unlike),
    order=44,
)
