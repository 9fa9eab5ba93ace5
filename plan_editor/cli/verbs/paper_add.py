"""The verb ``paper add``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument("item", metavar="ITEM", help="of what: C 14, memorial C 14, or its id")
    parser.add_argument("files", metavar="FILE", nargs="+", help="photographs or PDF")
    parser.add_argument("--says", default="", metavar="TEXT", help="what it shows or says")
    parser.add_argument(
        "--sort", default="", metavar="SORT", help="photograph, letter, report…"
    )


VERB = Verb(
    name="paper add",
    title="keep photographs and papers of a thing",
    arguments=_arguments,
    run=late("plan_editor.cli.papers", "paper_add", unlike),
    order=72,
)
"""Its photographs are made smaller, and what the camera wrote into them is left out."""
