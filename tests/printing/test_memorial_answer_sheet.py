"""The answer to an application for a memorial, on paper."""

import re
from dataclasses import replace
from pathlib import Path

import pypdfium2 as pdfium
from shapely import box

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import application, building, grave, parish
from plan_editor.kinds.application import ApplicationDetails, AskedFor, Shape
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.printing.pdf import write
from plan_editor.printing.sheet import Asked, Printed, Supplied
from plan_editor.printing.sheets import memorial

SPACE = new_item(
    grave.KIND,
    Rectangle(east=10, north=0, width=1.22, length=2.74),
    number="C 14",
    details=grave.GraveDetails(dug="2026-02-01"),
)
CHURCH = new_item(building.KIND, box(-20, -10, 0, 10))
FIGURES = new_item(
    parish.KIND,
    details=parish.ParishDetails(
        memorial_materials="Sandstone, slate", memorial_source="Regulations of 2019, rule 4."
    ),
)
ASKED = ApplicationDetails(
    grave=SPACE.id,
    received="2026-05-04",
    applicant="Anne Living",
    mason="Mason Brothers",
    form=Shape.HEADSTONE,
    height_mm=1250.0,
    width_mm=700.0,
    thickness_mm=100.0,
    material="York sandstone",
    base_width_mm=900.0,
    base_depth_mm=300.0,
    foundation_width_mm=1100.0,
    foundation_depth_mm=500.0,
    lettering="cut, not painted",
    inscription="Ada Farrow\n1943–2026",
)


def printed(details: ApplicationDetails, *, contacts: bool = False) -> Printed:
    wanted = new_item(application.KIND, details=details)
    plan: Plan = plan_of([SPACE, CHURCH, FIGURES, wanted], name="St Ŵyne, Ashby Parva")
    asked = Asked(date="2026-11-25", item=wanted.id, contacts=contacts)
    return memorial.SHEET.compose(plan, asked, Supplied())


def text_of(folder: Path, made: Printed) -> str:
    out = folder / "answer.pdf"
    assert write(made, out)
    with pdfium.PdfDocument(out) as document:
        told = "\n".join(page.get_textpage().get_text_range() for page in document)
    return re.sub(r"\s+", " ", told)


def test_it_is_one_page_of_a4_with_answer_sources_and_cautions(tmp_path: Path) -> None:
    made = printed(ASKED)
    told = text_of(tmp_path, made)
    assert [(p.width, p.height) for p in made.pages] == [(210.0, 297.0)]
    assert made.scale is None
    for words in (
        "Application for a memorial: grave C 14",
        "It takes a faculty: height.",
        "1,250 mm",
        "750 to 1,200 mm",
        "takes a faculty",
        "Regulations of 2019, rule 4.",
        "The regulations of the diocese's chancellor bind.",
        "received 4 May 2026",
        "Ada Farrow / 1943–2026",
        "cut, not painted",
    ):
        assert words in told, words


def test_living_people_stand_on_it_only_when_asked_for(tmp_path: Path) -> None:
    told = text_of(tmp_path, printed(ASKED))
    assert "Living" not in told
    assert "Brothers" not in told
    told = text_of(tmp_path, printed(ASKED, contacts=True))
    assert "applicant: Anne Living; mason: Mason Brothers" in told


def test_what_complies_and_what_is_not_told_is_said(tmp_path: Path) -> None:
    fits = replace(ASKED, height_mm=1000.0)
    told = text_of(tmp_path, printed(fits))
    assert "It complies with the figures on the plan; for the incumbent to judge:" in told
    assert "Simple, reverent and true." in told
    assert "Inscription, Lettering" in told.partition("On whose word")[2]
    short = replace(fits, thickness_mm=None, grave=None, inscription="", lettering="")
    told = text_of(tmp_path, printed(short))
    assert "It complies as far as it is told; not told: thickness," in told
    away = ApplicationDetails(asked_for=AskedFor.REMOVAL)
    assert "It takes a faculty: asked for." in text_of(tmp_path, printed(away))


def test_without_a_thing_to_be_about_there_is_no_page() -> None:
    empty: list[Item] = []
    made = memorial.SHEET.compose(plan_of(empty), Asked(date="2026-11-25"), Supplied())
    assert made.pages == ()
