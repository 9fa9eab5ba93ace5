"""The verb ``register write``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument(
        "-o", "--out", required=True, metavar="OUT.csv|xlsx", help="the table to be written"
    )


VERB = Verb(
    name="register write",
    title="write the burial register as a table",
    arguments=_arguments,
    run=late("plan_editor.cli.registers", "register_write", unlike),
    order=37,
)
