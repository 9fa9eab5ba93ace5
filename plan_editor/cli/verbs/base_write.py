"""The verb ``base write``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument("out", metavar="OUT", help="OUT.tif, or the suffix that the scan has")
    parser.add_argument("--base", required=True, metavar="NAME", help="the base plan's name")


VERB = Verb(
    name="base write",
    title="write a placed scan as a GeoTIFF, or as it came with a world file",
    arguments=_arguments,
    run=late("plan_editor.cli.base_plans", "base_write", unlike),
    order=32,
)
