"""The verb ``marks advise``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument("--tape", default="30", metavar="30", help="its length in metres")


VERB = Verb(
    name="marks advise",
    title="say how well pegs can be set out by tape, and where new marks would help",
    arguments=_arguments,
    run=late("plan_editor.cli.marks", "advise", unlike),
    order=37,
)
