from plan_editor.drawing.month_words import spoken
from plan_editor.records.month import Count


def told(**counts: int) -> str:
    return spoken(Count(**{"month": "2026-11", "tasks": 0, "overdue": 0, "days": 0, **counts}))


def test_a_month_is_spoken_with_what_it_holds():
    assert told() == "November 2026: nothing"
    assert told(overdue=2, tasks=3, days=1) == (
        "November 2026: 2 overdue, 3 due, 1 day to know of"
    )
    assert told(days=2) == "November 2026: 2 days to know of"
