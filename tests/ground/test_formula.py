import pytest
from hypothesis import given
from hypothesis import strategies as st

from plan_editor.errors import CannotUse
from plan_editor.ground.formula import read_formula


@pytest.mark.parametrize(
    ("text", "numbers", "wanted"),
    [
        ("height_m + 1.0", {"height_m": 1.2}, 2.2),
        ("height_m * 1.5 + 1", {"height_m": 2.0}, 4.0),
        # BS 5837:2012 as restated: twelve stem diameters, at most 15 m
        ("min(12 * stem_m, 15)", {"stem_m": 0.5}, 6.0),
        ("min(12 * stem_m, 15)", {"stem_m": 1.3}, 15.0),
        # standing advice for veteran trees: fifteen diameters, or 5 m beyond the crown
        ("max(15 * stem_m, crown_m + 5)", {"stem_m": 1.59, "crown_m": 8.0}, 23.85),
        ("(2 - 1) / 4", {}, 0.25),
    ],
)
def test_a_formula_gives_what_its_rule_says(text, numbers, wanted):
    assert read_formula(text).worked_out(numbers) == pytest.approx(wanted, abs=1e-12)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "height_m +",
        "__import__('os')",
        "height_m ** 99",
        "height_m.real",
        "[1][0]",
        "min()",
        "min(height_m, key=1)",
        "True + 1",
        "'a'",
        "lambda: 1",
        "x" * 300,
        "1\x00",
        "-1",
        "min + 1",
        "max(min, 1)",
        "(" * 99 + "1" + ")" * 99 + "(",
    ],
)
def test_what_is_no_sum_is_refused_in_a_sentence(text):
    with pytest.raises(CannotUse) as fault:
        read_formula(text)
    assert str(fault.value).endswith(".")


@pytest.mark.parametrize(
    ("text", "numbers", "says"),
    [
        ("height_m + 1", {}, "needs height_m"),
        ("1 / height_m", {"height_m": 0.0}, "divides by nought"),
        ("height_m - 3", {"height_m": 1.0}, "no distance"),
        ("height_m * height_m", {"height_m": 1e308}, "no distance"),
    ],
)
def test_a_formula_without_a_sensible_answer_says_so(text, numbers, says):
    with pytest.raises(CannotUse, match=says):
        read_formula(text).worked_out(numbers)


@given(st.floats(0, 1e6), st.floats(0, 1e6), st.sampled_from("+-*/"))
def test_a_sum_is_what_python_makes_of_it(one, other, sign):
    formula = read_formula(f"max(a {sign} b, 0)")
    try:
        wanted = max(eval(f"{one!r} {sign} {other!r}"), 0)  # noqa: S307  # our own two numbers
    except ZeroDivisionError:
        return
    if wanted < float("inf"):
        assert formula.worked_out({"a": one, "b": other}) == wanted
