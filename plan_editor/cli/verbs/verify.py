"""The verb ``verify``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")


VERB = Verb(
    name="verify",
    title="look for damage, and for changes by other programs",
    arguments=_arguments,
    run=late("plan_editor.cli.looking", "verify", unlike),
    order=61,
)
