"""The verb ``paper write``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument("item", metavar="ITEM", help="of what: C 14, memorial C 14, or its id")
    parser.add_argument("-o", "--out", required=True, metavar="FOLDER")


VERB = Verb(
    name="paper write",
    title="write the photographs and papers of a thing into a folder",
    arguments=_arguments,
    run=late("plan_editor.cli.papers", "paper_write", unlike),
    order=73,
)
