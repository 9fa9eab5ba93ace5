"""The verb ``inspect import``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument(
        "file",
        metavar="FILE",
        help="a table (CSV or XLSX) with columns such as number, date, result, method,"
        " inspector, action",
    )


VERB = Verb(
    name="inspect import",
    title="take in a table of inspections as one edit",
    arguments=_arguments,
    run=late("plan_editor.cli.inspecting", "take_in", unlike),
    order=43,
)
