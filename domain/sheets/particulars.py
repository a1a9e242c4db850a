"""Supply, earthing, main switch and instruments, as certificates and reports both print them."""

from domain.instrument import due_box
from domain.sheets.facts import Facts
from domain.sheets.sheet import Group


def particulars_of(facts: Facts) -> tuple[Group, ...]:
    """The installation at its origin."""
    return (
        facts.group(
            "Supply at the origin",
            ("supply.system", "supply.live_conductors", "supply.polarity"),
            ("supply.voltage", "supply.voltage_to_earth", "supply.frequency", "supply.nominal_by"),
            ("supply.ipf", "supply.ipf_by", "supply.ze", "supply.ze_by"),
            ("supply.device_standard", "supply.device_type", "supply.device_rating"),
            ("supply.other_sources",),
        ),
        facts.group(
            "Earthing and bonding",
            ("earthing.means", "earthing.maximum_demand"),
            ("earthing.electrode_type", "earthing.electrode_location", "earthing.electrode_resistance"),
            ("earthing.conductor_material", "earthing.conductor_csa", "earthing.conductor_verified"),
            ("earthing.bonding_material", "earthing.bonding_csa", "earthing.bonding_verified"),
            ("earthing.bonded_water", "earthing.bonded_gas", "earthing.bonded_oil"),
            ("earthing.bonded_steel", "earthing.bonded_lightning", "earthing.bonded_other"),
        ),
        facts.group(
            "Main switch or isolator",
            (("main_switch.location", 2), "main_switch.standard"),
            (
                "main_switch.poles",
                "main_switch.current_rating",
                "main_switch.fuse_rating",
                "main_switch.voltage_rating",
            ),
            ("main_switch.rcd_type", "main_switch.rcd_idn", "main_switch.rcd_delay", "main_switch.rcd_time"),
        ),
        instruments_of(facts),
    )


def instruments_of(facts: Facts) -> Group:
    """What the readings were taken with."""
    return facts.group(
        "Test instruments",
        *(
            (f"instruments.{one}", f"instruments.{due_box(one)}", f"instruments.{two}", f"instruments.{due_box(two)}")
            for one, two in (("multifunction", "continuity"), ("insulation", "loop"), ("rcd", "electrode"))
        ),
    )
