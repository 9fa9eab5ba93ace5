"""The verb ``clearance``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument(
        "--purpose", choices=("people", "machine"), help="for whom; everyone if not given"
    )
    parser.add_argument(
        "--date",
        metavar="YYYY-MM-DD",
        help="as the inspections stood on that day; today if not given",
    )


VERB = Verb(
    name="clearance",
    title="say how far to keep from what is unsafe",
    arguments=_arguments,
    run=late("plan_editor.cli.looking", "clearance", unlike),
    order=41,
)
