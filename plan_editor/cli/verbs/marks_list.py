"""The verb ``marks list``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")


VERB = Verb(
    name="marks list",
    title="say which marks there are and how they are found",
    arguments=_arguments,
    run=late("plan_editor.cli.marks", "list_marks", unlike),
    order=36,
)
