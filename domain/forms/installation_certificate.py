"""The Electrical Installation Certificate with its schedules: for new work."""

from domain.forms.box_group import BoxGroup
from domain.forms.profile import FormProfile

INSTALLATION_CERTIFICATE = FormProfile(
    id="EIC",
    title="Electrical Installation Certificate",
    short_name="an installation certificate",
    kind="certificate",
    purpose="For new work, additions and alterations to",
    letter="E",
    is_advised=True,
    asks=frozenset(
        {
            BoxGroup.CLIENT,
            BoxGroup.PREMISES,
            BoxGroup.FIRM,
            BoxGroup.WORK,
            BoxGroup.INSTALLATION,
            BoxGroup.SIGNATORIES,
            BoxGroup.INSTRUMENTS,
            BoxGroup.SYSTEM,
            BoxGroup.ORIGIN,
            BoxGroup.BONDING,
            BoxGroup.BOARD,
            BoxGroup.BOARD_FEED,
            BoxGroup.CIRCUIT,
        }
    ),
    offers=frozenset({BoxGroup.OCCUPIER, BoxGroup.USE, BoxGroup.CIRCUIT_USE}),
    roles=("design", "construction", "inspection and testing"),
    one_may_sign_all=True,
    section="work",
    day_box="completed_on",
    names_next_inspection=True,
    covers_new_work=True,
    has_schedules=True,
    takes_snags=True,
    checklist="initial",
    item_marks=("✓", "N/A"),
    front="installation certificate",
    guidance="eic",
)
