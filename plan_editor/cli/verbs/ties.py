"""The verb ``ties``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late
from plan_editor.resources import resource


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument(
        "book",
        metavar="BOOK",
        help="a field book as CSV or XLSX; one to begin with, which says what its columns "
        f"mean, is {_begin_with()}",
    )
    parser.add_argument(
        "--sheet", default="", metavar="NAME", help="of a workbook; the first if not given"
    )
    parser.add_argument("--dry-run", action="store_true", help="say it, and change nothing")


def _begin_with() -> str:
    # a per cent sign means something to the parser
    return str(resource("field_book.csv")).replace("%", "%%")


VERB = Verb(
    name="ties",
    title="take in a field book of ties, offsets, legs and checks, and adjust it",
    arguments=_arguments,
    run=late("plan_editor.cli.field_books", "ties", unlike),
    order=35,
)
