"""Results and methods of inspections as councils and masons write them."""

from collections.abc import Mapping

from plan_editor.kinds.inspection import Result, Test

_RESULTS: Mapping[Result, str] = {
    Result.IMMEDIATE: "immediate action;immediate;unsafe;not safe;fail;failed;fails;dangerous;"
    "danger;high risk;urgent",
    Result.MADE_SAFE: "made safe for now;made safe;temporarily made safe;laid flat;laid down;"
    "propped",
    Result.MINOR: "minor fault, look again;minor fault;minor;monitor;look again;re-inspect;"
    "reinspect",
    Result.SOUND: "sound;safe;stable;pass;passed;passes",
}
"""What says the result itself."""

_TAKEN_AS: Mapping[Result, str] = {
    Result.IMMEDIATE: "high;red;1",
    Result.MADE_SAFE: "supported",
    Result.MINOR: "medium;medium risk;amber;2",
    Result.SOUND: "ok;okay;good;firm;low;low risk;green;no action;no fault;3",
}
"""What only follows: a low risk is none that was tested, and no action may be none yet.

Categories in use by councils: 1 immediate action, 2 look again in a year, 3 sound.
"""

_TESTS: Mapping[Test, str] = {
    Test.VISUAL: "visual;eye;by eye;looked;look;v;visual only;visual inspection",
    Test.HAND: "hand;by hand;hand test;push;push test;h;manual",
    Test.FORCE: "force;force test;gauge;force gauge;mechanical;device;f",
    Test.ENGINEER: "engineer;structural engineer;by an engineer;e;mason",
}


def written_result(text: str) -> tuple[Result | None, str]:
    """Return a result as somebody wrote it, None where it is not known, and the doubt."""
    said = _said(text)
    if (found := _among(_RESULTS, said)) is not None:
        return found, ""
    if (found := _among(_TAKEN_AS, said)) is not None:
        return found, f"“{said}” is taken as “{found}”"
    wanted = ", ".join(f"“{r}”" for r in Result)
    return None, f"“{text[:40]}” is no result that is known; write one of {wanted}"


def _among(words: Mapping[Result, str], said: str) -> Result | None:
    return next((r for r, such in words.items() if said in such.split(";")), None)


def written_test(text: str) -> tuple[Test, str]:
    """Return a method as somebody wrote it, by eye where nothing is, and what is doubtful."""
    said = _said(text)
    if not said:
        return Test.VISUAL, ""
    found = next((t for t, words in _TESTS.items() if said in words.split(";")), None)
    if found is not None:
        return found, ""
    return Test.VISUAL, f"“{text[:40]}” is not known; “{Test.VISUAL}” is taken"


def _said(text: str) -> str:
    return " ".join(text.casefold().split()).strip(" .!")
