"""The verb ``fit``."""

from argparse import ArgumentParser

from plan_editor.cli.verb import Verb, unlike
from plan_editor.declared import late

MODELS = ("similarity", "affine", "projective", "warp", "auto")


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN")
    parser.add_argument("--base", required=True, metavar="NAME", help="the base plan's name")
    parser.add_argument(
        "--marks",
        required=True,
        metavar="FILE",
        help="CSV or XLSX: mark, px, py (pixels right and down), E, N, and perhaps sd",
    )
    parser.add_argument(
        "--model",
        choices=MODELS,
        default="auto",
        help="the kind of fit; auto takes the simplest that misses points left out by least",
    )
    parser.add_argument(
        "--move-traced",
        action="store_true",
        help="move what was traced on it along, in the same step",
    )
    parser.add_argument("--dry-run", action="store_true", help="say it, and change nothing")


VERB = Verb(
    name="fit",
    title="place a base plan by points whose coordinates are known",
    arguments=_arguments,
    run=late("plan_editor.cli.fitting", "fit", unlike),
    order=33,
)
