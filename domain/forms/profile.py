"""What a form set is: everything that screens, gate, checks, sheets and log ask of the papers, as one value."""

from dataclasses import dataclass

from domain.forms.box_group import BoxGroup
from domain.words import capitalised

NOT_ASKED: frozenset[BoxGroup] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class FormProfile:
    """One form set. Rooms above are named as data: roles, checklists, fronts and texts by the name they have there."""

    id: str
    """As documents, rules and the log keep it."""
    title: str
    """The name of the paper in full."""
    short_name: str
    """As it is called within a sentence."""
    kind: str
    """What the paper is, a certificate or a report."""
    purpose: str
    """What it is for; the edition followed stands behind it."""
    letter: str
    """Picks it from a list."""
    is_advised: bool = False
    """The rules of choice know it, and each says why it is not advised where it is not."""

    asks: frozenset[BoxGroup]
    """The groups of boxes it shows, each box filled where its declaration says it must be."""
    offers: frozenset[BoxGroup] = NOT_ASKED
    """The groups of boxes it shows and can do without."""
    roles: tuple[str, ...]
    """The parts of the work that are signed for, in the order of signing."""
    one_may_sign_all: bool = False
    """Whoever did every part of the work signs for all of them at once."""
    section: str
    """The page of boxes that holds the day and the next inspection."""
    day_box: str
    """The day that the paper tells, by the name of its box on that page and of its answer."""
    names_next_inspection: bool = False

    states_a_condition: bool = False
    """Satisfactory or not, by what was found; such a paper goes out either way. The others certify, and only ever comply."""
    covers_new_work: bool = False
    """All that it covers is new, the devices of a circuit among them."""
    covers_one_circuit: bool = False
    """One circuit of one board, with its details and tests on the form itself."""
    has_schedules: bool = False
    """Circuits stand on schedules of details and of results, board by board."""
    takes_observations: bool = False
    """What is wrong is observed with a code."""
    takes_snags: bool = False
    """What is wrong is put right first, and holds the paper back until then."""
    takes_limitations: bool = False
    """LIM and N/V stand for a value, with the reason."""

    checklist: str = ""
    """The list of items inspected; "" where the papers have none."""
    item_marks: tuple[str, ...] = ()
    """The outcomes an item can have, in the order they are offered; () for every one."""
    front: str = ""
    """The first sheet; "" for a plain one with all that is asked."""
    guidance: str = ""
    """The text for who receives the paper; "" where there is none."""

    @property
    def opens_a_sentence(self) -> str:
        """The short name as the first words of a sentence."""
        return capitalised(self.short_name)

    def takes(self, group: BoxGroup) -> bool:
        """Boxes of this group are shown."""
        return group in self.asks or group in self.offers
