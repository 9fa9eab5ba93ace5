"""The sheet of this month, read back from the PDF."""

from pathlib import Path

import pypdfium2

from plan_editor.drawing.ink import Fill, Stroke
from plan_editor.drawing.month_strip import month_strip
from plan_editor.kinds import bench, works
from plan_editor.kinds.works import WorksDetails
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.printing.pdf import write
from plan_editor.printing.sheet import Asked, Paper, Supplied
from plan_editor.printing.sheets.month import SHEET
from plan_editor.records.month import Count, ahead

ON = "2026-11-25"


def work(what: str, due: str):
    return new_item(works.KIND, details=WorksDetails(what=what, due=due))


def text(plan: Plan, tmp_path: Path) -> list[str]:
    out = tmp_path / "month.pdf"
    write(SHEET.compose(plan, Asked(date=ON), Supplied()), out)
    with pypdfium2.PdfDocument(out) as found:
        return [" ".join(p.get_textpage().get_text_range().split()) for p in found]


def test_the_months_stand_over_what_is_overdue_and_what_is_due(tmp_path: Path):
    plan = plan_of([work("Mend the gate", "2026-11-30"), work("Clear the drain", "2026-10-01")])
    (page,) = text(plan, tmp_path)
    assert "1 thing is overdue; 1 thing is due this month." in page
    assert "Nov Dec Jan Feb Mar Apr May Jun Jul Aug Sep Oct" in page
    assert page.index("Clear the drain") < page.index("Mend the gate")
    assert "1 October 2026" in page
    assert "The law, the diocese, the insurer and each faculty go before them." in page


def test_a_month_without_anything_due_says_so(tmp_path: Path):
    assert "Nothing is due, and nothing is overdue." in text(plan_of([]), tmp_path)[0]


def test_of_a_long_group_the_first_lines_are_told_and_the_others_counted(tmp_path: Path):
    plan = plan_of([new_item(bench.KIND) for _ in range(45)])
    told = " ".join(text(plan, tmp_path))
    assert "Without a day: inspections (45)" in told
    assert "The first 30 of them; the schedules tell the other 15." in told
    assert told.count("Inspect bench") == 30


def test_it_lies_on_the_paper_that_is_asked_for():
    made = SHEET.compose(plan_of([]), Asked(date=ON, paper=Paper.A3), Supplied())
    assert (made.paper, made.scale) == (Paper.A3, None)
    assert (made.pages[0].width, made.pages[0].height) == (297.0, 420.0)


def test_bars_are_as_high_as_their_counts_hatched_full_and_outlined():
    counts = ahead(plan_of([]), ON).counts
    assert not [i for i in month_strip(counts, 120, size=3).ink if isinstance(i, Fill)]
    told = (
        Count(month="2026-11", tasks=10, overdue=5, days=5),
        Count(month="2026-12", tasks=5, overdue=0, days=0),
    )
    panel = month_strip(told, 40.0, size=3.0)
    full = [i.rings[0] for i in panel.ink if isinstance(i, Fill)]
    tall = [ring[:, 1].max() - ring[:, 1].min() for ring in full]
    # the highest bar of 20 things is 26 mm, so 10 are 13 mm and 5 are 6.5 mm
    assert [round(float(t), 6) for t in tall] == [13.0, 6.5]
    outlines = [i for i in panel.ink if isinstance(i, Stroke) and i.closed]
    assert len(outlines) == 4
    assert {t.text for t in panel.ink if hasattr(t, "text")} == {"20", "5", "Nov", "Dec"}
