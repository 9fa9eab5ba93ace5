"""The verb ``base add``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument(
        "file", metavar="FILE", help="a PNG, JPEG or TIFF scan, or a DXF drawing"
    )
    parser.add_argument("--name", required=True, metavar="NAME", help="what it is called")


VERB = Verb(
    name="base add",
    title="lay a scan or a drawing under the ground",
    arguments=_arguments,
    run=late("plan_editor.cli.changing", "base_add", unlike),
    order=30,
)
