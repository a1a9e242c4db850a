"""The Minor Electrical Installation Works Certificate: one form for an addition or alteration to one circuit."""

from domain.forms.box_group import BoxGroup
from domain.forms.profile import FormProfile

MINOR_WORKS = FormProfile(
    id="MEIWC",
    title="Minor Electrical Installation Works Certificate",
    short_name="minor works",
    kind="certificate",
    purpose="For an addition or alteration to one existing circuit, to",
    letter="M",
    is_advised=True,
    asks=frozenset(
        {
            BoxGroup.CLIENT,
            BoxGroup.PREMISES,
            BoxGroup.FIRM,
            BoxGroup.WORK,
            BoxGroup.INSTRUMENTS,
            BoxGroup.SYSTEM,
            BoxGroup.BONDING,
            BoxGroup.BOARD,
            BoxGroup.CIRCUIT,
            BoxGroup.ONE_CIRCUIT,
        }
    ),
    offers=frozenset({BoxGroup.USE, BoxGroup.CIRCUIT_USE}),
    roles=("design, construction, inspection and testing",),
    section="work",
    day_box="completed_on",
    covers_one_circuit=True,
    takes_snags=True,
    item_marks=("✓", "N/A"),
    front="minor works",
    guidance="meiwc",
)
