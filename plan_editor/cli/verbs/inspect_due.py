"""The verb ``inspect due``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument("--on", metavar="DATE", help="due by that day; today if not given")


VERB = Verb(
    name="inspect due",
    title="say what is unsafe, and what ought to be inspected by a day",
    arguments=_arguments,
    run=late("plan_editor.cli.inspecting", "due", unlike),
    order=42,
)
