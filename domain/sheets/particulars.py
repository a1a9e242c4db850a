"""Supply, earthing, main switch and instruments, as certificates and reports both print them."""

from dataclasses import replace

from domain.job.instrument import INSTRUMENTS, due_box
from domain.sheets.facts import Facts
from domain.sheets.sheet import SheetEntry, SheetGroup, ValueOrigin
from domain.value import says_nothing


def supply_of(facts: Facts) -> tuple[SheetGroup, ...]:
    """The installation at its origin, and how it is earthed and bonded."""
    return (
        facts.group(
            "Supply at the origin",
            ("supply.system", "supply.live_conductors", "supply.polarity"),
            ("supply.voltage", "supply.voltage_to_earth", "supply.frequency", "supply.nominal_by"),
            ("supply.ipf", "supply.ipf_by", "supply.ze", "supply.ze_by"),
            *_device_and_sources(facts),
        ),
        facts.group(
            "Earthing and bonding",
            ("earthing.means", "earthing.maximum_demand"),
            ("earthing.electrode_type", "earthing.electrode_location", "earthing.electrode_resistance"),
            ("earthing.conductor_material", "earthing.conductor_csa"),
            ("earthing.bonding_material", "earthing.bonding_csa"),
            ("earthing.conductor_verified", "earthing.bonding_verified"),
            (
                *("earthing.bonded_water", "earthing.bonded_gas", "earthing.bonded_oil"),
                *("earthing.bonded_steel", "earthing.bonded_lightning", "earthing.bonded_other"),
            ),
        ),
    )


def main_switch_of(facts: Facts) -> SheetGroup:
    """What switches the installation off."""
    return facts.group(
        "Main switch or isolator",
        (("main_switch.location", 2), "main_switch.standard"),
        (
            "main_switch.poles",
            "main_switch.current_rating",
            "main_switch.fuse_rating",
            "main_switch.voltage_rating",
        ),
        ("main_switch.rcd_type", "main_switch.rcd_idn", "main_switch.rcd_delay", "main_switch.rcd_time"),
    )


def _device_and_sources(facts: Facts) -> tuple[tuple[str, ...], ...]:
    sources = ("supply.other_sources",)
    device = ("supply.device_standard", "supply.device_type", "supply.device_rating")
    return ((*device, *sources),) if facts.is_brief("supply.other_sources") else (device, sources)


def instruments_of(facts: Facts) -> SheetGroup:
    """What the readings were taken with; what no instrument of its own was used for fell to the multifunction tester."""
    held = facts.job.instruments
    dues = [due_box(box) for box in INSTRUMENTS]
    group = facts.group(
        "Test instruments, by serial number",
        tuple(f"instruments.{box}" for box in INSTRUMENTS),
        tuple(f"instruments.{due}" for due in dues if not says_nothing(getattr(held, due))),
    )
    if not says_nothing(held.multifunction):
        group = replace(group, rows=tuple(tuple(_by_the_same(entry) for entry in row) for row in group.rows))
    return group


def _by_the_same(entry: SheetEntry) -> SheetEntry:
    box = entry.place.box if entry.place else ""
    is_left_out = entry.origin is ValueOrigin.OURS and box in INSTRUMENTS and box != "electrode"
    return replace(entry, value="the same tester") if is_left_out else entry
