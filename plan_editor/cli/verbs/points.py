"""The verb ``points``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument(
        "file",
        metavar="FILE",
        help="points as CSV, TXT or XLSX in any order of columns, or GPX",
    )
    parser.add_argument(
        "--crs",
        default="",
        metavar="EPSG:n",
        help="the coordinate system of the file: EPSG:4258 for latitude and longitude by RTK, "
        "EPSG:4326 by plain GPS, EPSG:27700 for the British grid; without it the plan's own",
    )
    parser.add_argument(
        "--map",
        metavar="CODES.toml",
        help="a table of codes of your own, written as resources/codes.toml is",
    )
    parser.add_argument("--dry-run", action="store_true", help="say it, and change nothing")


VERB = Verb(
    name="points",
    title="put points from a receiver or an instrument on the plan",
    arguments=_arguments,
    run=late("plan_editor.cli.points", "points", unlike),
    order=34,
)
