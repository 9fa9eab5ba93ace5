"""The verb ``history``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")


VERB = Verb(
    name="history",
    title="say who changed what, and when",
    arguments=_arguments,
    run=late("plan_editor.cli.looking", "history", unlike),
    order=60,
)
