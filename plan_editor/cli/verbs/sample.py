"""The verb ``sample``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("folder", metavar="DIR", help="where to; made if it is not there")


VERB = Verb(
    name="sample",
    title="copy the sample and do the main job on it: two sheets and a DXF",
    arguments=_arguments,
    run=late("plan_editor.cli.sampling", "sample", unlike),
    order=10,
)
