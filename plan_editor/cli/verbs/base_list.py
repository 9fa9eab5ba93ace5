"""The verb ``base list``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")


VERB = Verb(
    name="base list",
    title="say which base plans there are",
    arguments=_arguments,
    run=late("plan_editor.cli.looking", "base_list", unlike),
    order=31,
)
