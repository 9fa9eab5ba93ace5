"""The parish: its own figures, and where each comes from."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Form, Kind

_SIZES = "Common practice: 4 feet by 9 feet for a grave, 2 feet square for ashes."
_DEPTHS = (
    "Local Authorities' Cemeteries Order 1977, Schedule 2, for the earth over and between"
    " coffins; it binds council cemeteries, not churchyards. Height of a coffin: custom."
)
_SETTLING = "Commonly 6 months in diocesan regulations; some parishes wait 9 or 12."
_MEMORIALS = "A pattern common to several dioceses' regulations; your own may differ."
_FORMS = (
    "Patterns of several dioceses' regulations: ledgers, tablets, bases, foundations flush with"
    " the turf, 1.2 m to the church, no kerbs without faculty. Your own may differ."
)
_INSCRIPTION = "Simple, reverent and true."
_LETTERING = "Cut into the stone, clear to read; no plastic letters."
_WORDING = "Common in several dioceses' regulations; your own may differ. The incumbent judges."
_INSPECTIONS = (
    "Common practice of councils after Managing the Safety of Burial Ground Memorials (Ministry"
    " of Justice, 2009); force of a test after BS 8415."
)


def _metres(title: str, default: float, high: float, told: str = "") -> float:
    metres: float = field(
        default=default,
        metadata=about(title, unit="m", low=0.0, high=high, help=told, schedule=True),
    )
    return metres


def _millimetres(title: str, default: float, high: float) -> float:
    millimetres: float = field(
        default=default,
        metadata=about(title, unit="mm", low=1.0, high=high, schedule=True),
    )
    return millimetres


def _source(title: str, default: str) -> str:
    source: str = field(
        default=default,
        metadata=about(
            title, long=True, help="Printed wherever these figures are used.", schedule=True
        ),
    )
    return source


def _rule(title: str, default: str) -> str:
    rule: str = field(
        default=default,
        metadata=about(
            title,
            long=True,
            help="In words: nothing measures it, the incumbent judges; empty for none.",
            schedule=True,
        ),
    )
    return rule


@dataclass(frozen=True, slots=True, kw_only=True)
class ParishDetails:
    """The parish's own figures, each group with its source; defaults are common practice."""

    name: str = field(default="", metadata=about("Parish", schedule=True))
    diocese: str = field(default="", metadata=about("Diocese", schedule=True))
    enquiries: str = field(
        default="",
        metadata=about(
            "Enquiries to",
            long=True,
            help="An office, its telephone and address: printed on notices. Name nobody here.",
        ),
    )
    grave_width_m: float = _metres("Width of a grave", 1.22, 10.0, "4 feet is usual.")
    grave_length_m: float = _metres("Length of a grave", 2.74, 10.0, "9 feet is usual.")
    ashes_width_m: float = _metres("Width of an ashes plot", 0.6, 5.0)
    ashes_length_m: float = _metres("Length of an ashes plot", 0.6, 5.0)
    grave_source: str = _source("Source of the sizes", _SIZES)
    cover_m: float = _metres(
        "Earth over the top coffin",
        0.914,
        5.0,
        "3 feet in council cemeteries; 1 m is asked for to protect groundwater.",
    )
    coffin_m: float = _metres("Height of a coffin", 0.42, 1.5)
    separation_m: float = _metres(
        "Earth between coffins", 0.152, 2.0, "6 inches in council cemeteries."
    )
    depth_source: str = _source("Source of the depths", _DEPTHS)
    settling_months: int = field(
        default=6,
        metadata=about(
            "A grave settles for",
            unit="months",
            low=0,
            high=60,
            help="Before it is levelled or bears a stone; 6 to 12 is common.",
            schedule=True,
        ),
    )
    settling_source: str = _source("Source of the settling time", _SETTLING)
    memorial_height_mm: float = _millimetres("Highest memorial", 1200.0, 10_000.0)
    memorial_width_mm: float = _millimetres("Widest memorial", 900.0, 10_000.0)
    memorial_thickness_mm: float = _millimetres("Thickest memorial", 150.0, 5_000.0)
    memorial_least_height_mm: float = _millimetres("Lowest headstone", 750.0, 10_000.0)
    memorial_least_width_mm: float = _millimetres("Narrowest headstone", 500.0, 10_000.0)
    memorial_least_thickness_mm: float = _millimetres("Thinnest headstone", 75.0, 5_000.0)
    memorial_source: str = _source("Source of the memorial sizes", _MEMORIALS)
    slate_least_thickness_mm: float = _millimetres("Thinnest headstone of slate", 38.0, 5_000.0)
    cross_height_mm: float = _millimetres("Highest cross", 1200.0, 10_000.0)
    ledger_length_mm: float = _millimetres("Longest ledger", 2100.0, 10_000.0)
    ledger_width_mm: float = _millimetres("Widest ledger", 900.0, 10_000.0)
    ledger_least_length_mm: float = _millimetres("Shortest ledger", 1200.0, 10_000.0)
    ledger_least_width_mm: float = _millimetres("Narrowest ledger", 600.0, 10_000.0)
    tablet_length_mm: float = _millimetres("Longer side of an ashes tablet", 450.0, 5_000.0)
    tablet_width_mm: float = _millimetres("Shorter side of an ashes tablet", 400.0, 5_000.0)
    base_projection_mm: float = _millimetres("A base stands out by at most", 100.0, 2_000.0)
    vase_projection_mm: float = _millimetres(
        "In front, where it holds a vase, by at most", 200.0, 2_000.0
    )
    foundation_least_mm: float = _millimetres(
        "A foundation reaches out at least", 75.0, 2_000.0
    )
    foundation_most_mm: float = _millimetres("A foundation reaches out at most", 125.0, 2_000.0)
    church_distance_m: float = _metres(
        "From the church wall to a memorial", 1.2, 50.0, "From the outer face of the wall."
    )
    memorial_materials: str = field(
        default="",
        metadata=about(
            "Materials allowed",
            help="With commas between them; empty as long as nobody wrote them down.",
            schedule=True,
        ),
    )
    kerbs_allowed: bool = field(
        default=False, metadata=about("Kerbs allowed without faculty", schedule=True)
    )
    memorial_forms_source: str = _source("Source of the further rules for memorials", _FORMS)
    inscription_rule: str = _rule("Inscriptions", _INSCRIPTION)
    lettering_rule: str = _rule("Lettering", _LETTERING)
    wording_source: str = _source("Source of the rules for inscriptions", _WORDING)
    inspection_years: float = field(
        default=5.0,
        metadata=about(
            "Inspect memorials every",
            unit="years",
            low=0.1,
            high=50.0,
            help="Five years is typical; some places look every year.",
            schedule=True,
        ),
    )
    minor_fault_months: int = field(
        default=12,
        metadata=about(
            "Look again at a minor fault after",
            unit="months",
            low=1,
            high=120,
            schedule=True,
        ),
    )
    test_height_mm: float = _millimetres("Test by hand from a height of", 500.0, 5_000.0)
    engineer_height_mm: float = _millimetres("Ask an engineer above", 1500.0, 20_000.0)
    test_force_n: float = field(
        default=250.0,
        metadata=about("Force of a test", unit="N", low=1.0, high=1000.0, schedule=True),
    )
    inspection_source: str = _source("Source of the inspection figures", _INSPECTIONS)
    new_graves_a_year: float | None = field(
        default=None,
        metadata=about(
            "New graves a year",
            low=0.0,
            high=1000.0,
            help="Where the register does not tell; without re-openings and ashes.",
            schedule=True,
        ),
    )
    mowing_m2_h: float | None = field(
        default=None,
        metadata=about(
            "Mowing rate in the open",
            unit="m²/h",
            low=1.0,
            high=100_000.0,
            help="As measured in your own season; empty for the shipped estimate.",
            schedule=True,
        ),
    )
    minutes_a_stone: float | None = field(
        default=None,
        metadata=about(
            "Trimming round a stone",
            unit="min",
            low=0.0,
            high=120.0,
            help="As measured in your own season; empty for the shipped estimate.",
            schedule=True,
        ),
    )
    mowing_source: str = _source("Source of the mowing figures", "")
    rules_off: str = field(
        default="",
        metadata=about("Rules left out", help="Names of rules, with commas between them."),
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="parish",
    title="Parish",
    plural="Parish figures",
    forms=(Form.NONE,),
    details=ParishDetails,
    element="PARISH",
    help="The parish's own figures. The diocese's regulations bind: enter those that apply.",
    label="name",
)
