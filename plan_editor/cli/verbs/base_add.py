"""The verb ``base add``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument(
        "file",
        metavar="FILE",
        help="a scan (PNG, JPEG, TIFF, JPEG 2000 or PDF), or a DXF drawing",
    )
    parser.add_argument("--name", required=True, metavar="NAME", help="what it is called")
    parser.add_argument(
        "--page", metavar="N", help="of a file of several pages; else the first"
    )


VERB = Verb(
    name="base add",
    title="lay a scan or a drawing under the ground",
    arguments=_arguments,
    run=late("plan_editor.cli.changing", "base_add", unlike),
    order=30,
)
