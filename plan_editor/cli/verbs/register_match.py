"""The verb ``register match``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN", help="the plan")
    parser.add_argument(
        "--accept",
        metavar="SCORE",
        help="match those at least so likely, from 0 to 1, in one step; 0.75 is usual",
    )


VERB = Verb(
    name="register match",
    title="say to which graves entries of the register belong, and what is left to look into",
    arguments=_arguments,
    run=late("plan_editor.cli.matching", "match", unlike),
    order=36,
)
