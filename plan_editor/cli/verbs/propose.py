"""The verb ``propose``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument("--base", required=True, metavar="NAME", help="the scan's name")
    parser.add_argument(
        "--accept",
        metavar="MIN_SCORE",
        help="draw those at least so sure, from 0 to 1, in one step",
    )
    parser.add_argument(
        "--kind", default="grave", metavar="KIND", help="what is looked for; else graves"
    )


VERB = Verb(
    name="propose",
    title="find graves on a scan that are not drawn yet, as those drawn look",
    arguments=_arguments,
    run=late("plan_editor.cli.proposing", "propose", unlike),
    order=36,
)
