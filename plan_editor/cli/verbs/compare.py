"""The verb ``compare``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="A", help="a plan")
    parser.add_argument(
        "other", metavar="B", nargs="?", help="another; without it A as it is now"
    )
    parser.add_argument(
        "--on",
        metavar="DATE",
        help="take A as it was known at the end of that day: 2026-05-16, 16.5.2026 or 2026-05",
    )


VERB = Verb(
    name="compare",
    title="say in what two plans differ, or one from what it was",
    arguments=_arguments,
    run=late("plan_editor.cli.comparing", "compare", unlike),
    order=62,
)
