"""The verb ``register find``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN", help="the plan")
    parser.add_argument("text", metavar="TEXT", help="part of a name, a year, a grave's number")


VERB = Verb(
    name="register find",
    title="find a grave by part of a name, a year or a number, however it is spelt",
    arguments=_arguments,
    run=late("plan_editor.cli.matching", "find", unlike),
    order=36,
)
