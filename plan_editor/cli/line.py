"""Words in, an answer and an exit code out."""

import json
import logging
import os
import re
import sys
from argparse import ArgumentParser
from collections.abc import Sequence
from typing import NoReturn

from typing_extensions import override

from plan_editor.cli.crash import kept_report
from plan_editor.cli.verb import Said, Verb, verbs
from plan_editor.errors import CannotUse, PlanEditorError

_ABOUT = (
    "A true plan of a churchyard: measured, kept, and printed for the people who act on it."
)
_WINDOW = "Without a verb, and with or without a PLAN, the window opens."
_FAMILIES = {
    "base": "base plans under the ground",
    "contacts": "living people who answer for a stone or a space",
    "dxf": "exchange with other programs",
    "grid": "the coordinate system that the plan lies in",
    "inspect": "inspections, due and done",
    "marks": "fixed points that one measures from",
    "paper": "photographs and papers of things",
    "register": "the burial register",
}
_NOT_A_CHOICE = re.compile(
    r"argument (?:-+)?(?P<what>\w+): invalid choice: ['\"](?P<given>.*)['\"] "
    r"\(choose from (?P<known>.*)\)",
    re.DOTALL,
)
_STOPPED = "It was stopped before it was done."


def names() -> frozenset[str]:
    """Return the first word of every verb."""
    return frozenset(verb.name.split()[0] for verb in verbs())


def run(words: Sequence[str]) -> int:
    """Do what the words say and return the exit code: 0 done, 1 no, 2 it could not be done."""
    _speak_utf8()
    try:
        return _said(words, as_json="--json" in words)
    except BrokenPipeError:
        # whoever reads the answer has seen enough: nothing more may be written, at the end too
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 2


def _said(words: Sequence[str], *, as_json: bool) -> int:
    try:
        asked = _parser().parse_args(words)
        said: Said = asked.verb.run(asked)
    except PlanEditorError as fault:
        return _refuse(str(fault), as_json=as_json)
    except KeyboardInterrupt:
        return _refuse(_STOPPED, as_json=as_json)
    except Exception as fault:  # noqa: BLE001  # the edge: no traceback reaches a user
        return _refuse(kept_report(fault), as_json=as_json)
    _answer(said, as_json=as_json)
    return said.code


class _Parser(ArgumentParser):
    @override
    def error(self, message: str) -> NoReturn:
        raise CannotUse(f"{_worded(message)}. Try “{self.prog} --help”.")


def _worded(message: str) -> str:
    """Return what the library says of words that make no sense, as a sentence of ours."""
    if not (found := _NOT_A_CHOICE.fullmatch(message)):
        return f"{message[:1].upper()}{message[1:]}"
    known = found["known"].replace("'", "")
    return f"There is no {found['what'].lower()} “{found['given']}”, only {known}"


def _parser() -> ArgumentParser:
    parser = _Parser(prog="plan-editor", description=f"{_ABOUT} {_WINDOW}")
    words = parser.add_subparsers(
        title="verbs",
        metavar="VERB",
        required=True,
        parser_class=_Parser,
    )
    families = {"": words}
    for verb in verbs():
        first, _, second = verb.name.rpartition(" ")
        if first not in families:
            family = words.add_parser(
                first, help=_FAMILIES[first], description=_FAMILIES[first]
            )
            families[first] = family.add_subparsers(
                metavar="VERB", required=True, parser_class=_Parser
            )
        _fill(families[first].add_parser(second, help=verb.title, description=verb.title), verb)
    return parser


def _fill(parser: ArgumentParser, verb: Verb) -> None:
    verb.arguments(parser)
    parser.add_argument("--json", action="store_true", help="answer as JSON, for programs")
    parser.set_defaults(verb=verb)


def _answer(said: Said, *, as_json: bool) -> None:
    text = json.dumps(said.facts, ensure_ascii=False, indent=2) if as_json else said.text
    sys.stdout.write(f"{text}\n")
    sys.stdout.flush()


def _refuse(sentence: str, *, as_json: bool) -> int:
    if as_json:
        sys.stdout.write(f"{json.dumps({'error': sentence}, ensure_ascii=False)}\n")
    sys.stderr.write(f"plan-editor: {sentence}\n")
    return 2


def _speak_utf8() -> None:
    # a Windows console may stand at another encoding, and the name of a file be no text at all;
    # remarks of libraries are not for users
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    logging.getLogger().addHandler(logging.NullHandler())
