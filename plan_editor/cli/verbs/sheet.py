"""The verb ``sheet``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late, names


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("sheet", choices=names("plan_editor.printing.sheets"))
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument(
        "item", metavar="ITEM", nargs="?", default="", help="what it is about: C 14, or its id"
    )
    parser.add_argument("-o", "--out", required=True, metavar="OUT.pdf")
    parser.add_argument(
        "--scale", metavar="200", help="1:200; the largest that fits if not given"
    )
    parser.add_argument(
        "--paper", metavar="A3", help="A4, A3, A2 or A1; the smallest that will do"
    )
    parser.add_argument("--date", metavar="YYYY-MM-DD", help="of issue; today if not given")
    parser.add_argument("--maker", default="", metavar="NAME", help="who made it")
    parser.add_argument(
        "--churchyard",
        default="",
        metavar="NAME",
        help="only that one, where several lie on the plan",
    )
    parser.add_argument(
        "--contacts", action="store_true", help="with the names of living people"
    )
    parser.add_argument(
        "--base-plans", action="store_true", help="with the base plans that may be reproduced"
    )


VERB = Verb(
    name="sheet",
    title="print a sheet to a PDF",
    arguments=_arguments,
    run=late("plan_editor.cli.making", "sheet", unlike),
    order=50,
)
