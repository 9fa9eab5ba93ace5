"""The verb ``check``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN", help="the plan")
    parser.add_argument("--rule", metavar="NAME", help="let one rule look: overlapping_graves")


VERB = Verb(
    name="check",
    title="say what on a plan is worth a look: graves over one another, gaps, odd sizes",
    arguments=_arguments,
    run=late("plan_editor.cli.checking", "check", unlike),
    order=61,
)
