"""The verb ``traverse``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument(
        "book", metavar="BOOK", help="a field book as CSV or XLSX, its legs in order"
    )
    parser.add_argument(
        "--adjust",
        choices=("bowditch", "least-squares"),
        default="bowditch",
        help="how what it misses by is shared out; Bowditch's rule if not given",
    )
    parser.add_argument(
        "--sheet", default="", metavar="NAME", help="of a workbook; the first if not given"
    )


VERB = Verb(
    name="traverse",
    title="work out a traverse by itself: what it misses by, its points, its area",
    arguments=_arguments,
    run=late("plan_editor.cli.traverses", "traverse", unlike),
    order=36,
)
