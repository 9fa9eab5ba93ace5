"""The verb ``new``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument(
        "plan", metavar="PLAN", help="the file to make, such as harrowmere.gpkg"
    )
    parser.add_argument(
        "--name", required=True, metavar="TEXT", help="what the ground is called"
    )
    parser.add_argument(
        "--crs",
        default="local",
        help="EPSG:27700 or another system in metres; local if not given",
    )
    parser.add_argument(
        "--origin",
        default="0,0",
        metavar="E,N",
        help="of the plan's origin; --origin=-5,0 where one is less than 0",
    )


VERB = Verb(
    name="new",
    title="begin an empty plan",
    arguments=_arguments,
    run=late("plan_editor.cli.changing", "new", unlike),
    order=20,
)
