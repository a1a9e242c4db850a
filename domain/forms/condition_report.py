"""The Electrical Installation Condition Report with its schedules: on what stands already."""

from domain.forms.box_group import BoxGroup
from domain.forms.profile import FormProfile

CONDITION_REPORT = FormProfile(
    id="EICR",
    title="Electrical Installation Condition Report",
    short_name="a report",
    kind="report",
    purpose="On the condition of an existing installation, judged against",
    letter="R",
    is_advised=True,
    asks=frozenset(
        {
            BoxGroup.CLIENT,
            BoxGroup.PREMISES,
            BoxGroup.OCCUPIER,
            BoxGroup.USE,
            BoxGroup.HISTORY,
            BoxGroup.FIRM,
            BoxGroup.CONDITION,
            BoxGroup.INSTRUMENTS,
            BoxGroup.SYSTEM,
            BoxGroup.ORIGIN,
            BoxGroup.BONDING,
            BoxGroup.BOARD,
            BoxGroup.BOARD_FEED,
            BoxGroup.CIRCUIT,
        }
    ),
    offers=frozenset({BoxGroup.CIRCUIT_USE}),
    roles=("inspected and tested", "authorised for issue"),
    section="report",
    day_box="inspected_on",
    names_next_inspection=True,
    states_a_condition=True,
    has_schedules=True,
    takes_observations=True,
    takes_limitations=True,
    checklist="periodic",
    front="condition report",
    guidance="eicr",
)
