"""The verb ``dxf write``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument("out", metavar="OUT.dxf")


VERB = Verb(
    name="dxf write",
    title="write the plan as a DXF drawing in true coordinates",
    arguments=_arguments,
    run=late("plan_editor.cli.making", "dxf_write", unlike),
    order=51,
)
