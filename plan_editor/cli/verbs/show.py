"""The verb ``show``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")


VERB = Verb(
    name="show",
    title="count what there is, with areas and lengths",
    arguments=_arguments,
    run=late("plan_editor.cli.looking", "show", unlike),
    order=40,
)
