"""The verb ``contacts forget``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument(
        "person",
        metavar="PERSON",
        help="name of an owner as the plan has it, or the owner's id",
    )
    parser.add_argument(
        "--anyway",
        action="store_true",
        help="also if other words still name the person; without it they are only told",
    )


VERB = Verb(
    name="contacts forget",
    title="forget a living person for good: in the plan, its history and its copies",
    arguments=_arguments,
    run=late("plan_editor.cli.forgetting", "contacts_forget", unlike),
    order=95,
)
