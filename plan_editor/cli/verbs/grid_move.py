"""The verb ``grid move``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument(
        "--crs", required=True, help="where to: EPSG:27700 or another system in metres"
    )
    parser.add_argument(
        "--marks",
        required=True,
        metavar="FILE",
        help="marks and their coordinates there: mark,E,N[,sd] as CSV or XLSX",
    )
    parser.add_argument(
        "--scale",
        choices=("held", "free"),
        default="held",
        help="held: a metre on the ground stays one (usual); free: as the marks say",
    )
    parser.add_argument(
        "--by",
        choices=("gnss", "instrument"),
        help="how the coordinates of the marks were measured",
    )
    parser.add_argument(
        "--date", default="", metavar="YYYY-MM-DD", help="when they were measured"
    )
    parser.add_argument("--dry-run", action="store_true", help="say it, but change nothing")


VERB = Verb(
    name="grid move",
    title="move the whole plan to another grid by marks whose coordinates are known there",
    arguments=_arguments,
    run=late("plan_editor.cli.grid", "move", unlike),
    order=38,
)
