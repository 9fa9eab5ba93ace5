"""The verb ``register import``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument(
        "file", metavar="FILE", help="the register as CSV or XLSX, in any order of columns"
    )
    parser.add_argument(
        "--columns",
        metavar="MAP.toml",
        help='what the table calls its columns, a line each: surname = "Family name"',
    )
    parser.add_argument("--dry-run", action="store_true", help="say it, and change nothing")


VERB = Verb(
    name="register import",
    title="take in the burial register from a table",
    arguments=_arguments,
    run=late("plan_editor.cli.registers", "register_import", unlike),
    order=36,
)
