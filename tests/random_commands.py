"""Commands as a person, or a program gone wild, might give them to a job."""

from hypothesis import strategies as st

from domain.editing.board_commands import TakeBoards
from domain.editing.carrying import details_of
from domain.editing.commands import (
    AddBoard,
    AddCircuit,
    AddItem,
    AddPicture,
    AnswerFailures,
    Choose,
    ClearSnag,
    Command,
    Confirm,
    Enter,
    Explain,
    MoveCircuit,
    Observe,
    PutForward,
    RaiseSnag,
    RecordAction,
    RemoveBoard,
    RemoveCircuit,
    RemoveItem,
    RemovePicture,
    ReopenSnag,
    SetOutcome,
    Sign,
    Unsign,
    Withdraw,
)
from domain.editing.usual_commands import FillBoard, FillCircuit
from domain.forms.choice.chosen import ChosenPapers
from domain.forms.form_set import FormSet
from domain.inspection.item_outcome import InspectionOutcome
from domain.inspection.observation import Code, ImmediateAction, Observation
from domain.job.board import Board
from domain.job.box import boxes_of
from domain.job.circuit import Circuit
from domain.job.explanation import Explanation
from domain.job.job import SECTIONS, Job
from domain.job.signature import Role, roles_for
from domain.job.snag import Snag
from domain.place import Place
from domain.usual.circuit_kinds import circuit_kinds
from domain.usual.filled_boards import filled_boards
from tests.builders import AT, INSPECTOR, ON
from tests.camera import picture

TEXTS = st.sampled_from(["", "N/A", "Y", "0.49", ">999", "LIM", "x", "02/03/2026"]) | st.text(max_size=40)

_SHORT = st.sampled_from(["Switched off and locked", "The client, in writing", "-", ""])


def commands_for(job: Job) -> st.SearchStrategy[Command]:
    """Commands that may fit the job as it stands, or may not."""
    return st.one_of(
        st.builds(RaiseSnag, what=st.sampled_from(["Lid missing", " "]), by=st.just(INSPECTOR), on=st.just(ON)),
        st.builds(
            ClearSnag,
            snag=_one_of(snag.id for snag in job.snags),
            by=st.just(INSPECTOR),
            on=st.just(ON),
            how=st.sampled_from(["Fitted", ""]),
        ),
        st.builds(ReopenSnag, snag=_one_of(snag.id for snag in job.snags)),
        st.builds(Sign, role=st.sampled_from(roles_for(job.form_set)), name=st.just(INSPECTOR), at=st.just(AT)),
        st.builds(Unsign, role=st.sampled_from(list(Role))),
        st.builds(Enter, place=_places(job), text=TEXTS),
        st.builds(PutForward, entries=st.tuples(st.builds(Enter, place=_places(job), text=TEXTS))),
        st.builds(Confirm, places=st.tuples(_places(job))),
        st.just(details_of(job)),
        _on_parts(job),
        boards_taken(job),
    )


def boards_taken(job: Job) -> st.SearchStrategy[TakeBoards]:
    """Boards of another job, which may be no boards of any: ids twice or of two kinds of parts, places of what is not among them."""
    ids = st.sampled_from(["b1", "b2", "c1", "c2", "o1", "", *(board.id for board in job.boards)])
    items = st.sampled_from([*(item.number for item in job.items), "A1", "nowhere"])
    places = st.builds(
        Place, section=st.just("boards"), board=ids, circuit=ids, box=st.sampled_from(["zs", "location"])
    ) | st.builds(Place, section=st.just("inspection"), item=items)
    circuits = st.builds(Circuit, id=ids, number=_SHORT, zs=st.sampled_from(["", "0.49"]))
    boards = st.builds(
        Board,
        id=ids,
        designation=st.sampled_from(["DB7", "DB8", ""]),
        location=_SHORT,
        circuits=st.lists(circuits, max_size=2, unique_by=lambda each: each.id).map(tuple),
    )
    observations = st.builds(
        Observation,
        id=ids,
        finding=st.just("Lid missing"),
        code=st.sampled_from(list(Code)),
        items=st.lists(items, max_size=2).map(tuple),
        about=st.none() | places,
        answers=st.lists(places, max_size=2, unique=True).map(tuple),
    )
    snags = st.builds(
        Snag,
        id=ids,
        what=st.just("Lid missing"),
        about=st.none() | places,
        raised_by=st.just(INSPECTOR),
        raised_on=st.just(ON),
    )
    explanations = st.builds(
        Explanation,
        check=st.just("insulation"),
        place=places,
        reason=st.just("Surge device left in"),
        by=st.just(INSPECTOR),
        on=st.just(ON),
    )
    pictures = st.builds(lambda about, at: picture(about, id=at), places, ids)
    return st.builds(
        TakeBoards,
        tested_in=st.just("MR-0001"),
        boards=st.lists(boards, min_size=1, max_size=2).map(tuple),
        observations=st.lists(observations, max_size=1).map(tuple),
        snags=st.lists(snags, max_size=1).map(tuple),
        explanations=st.lists(explanations, max_size=2).map(tuple),
        pictures=st.lists(pictures, max_size=1).map(tuple),
        unconfirmed=st.lists(places, max_size=2).map(tuple),
    )


def _on_parts(job: Job) -> st.SearchStrategy[Command]:
    boards = _one_of(board.id for board in job.boards)
    circuits = _one_of(circuit.id for _, circuit in job.circuits())
    items = _one_of(item.number for item in job.items)
    return st.one_of(
        st.builds(AddBoard),
        st.builds(RemoveBoard, board=boards),
        st.builds(AddCircuit, board=boards, after=circuits, like=circuits),
        st.builds(RemoveCircuit, board=boards, circuit=circuits),
        st.builds(
            FillBoard, board=boards | st.just(""), usual=st.sampled_from([each.board for each in filled_boards()])
        ),
        st.builds(
            FillCircuit,
            board=boards,
            circuit=circuits,
            usual=st.sampled_from([each.details for each in circuit_kinds()]) | st.just({"rating": "x" * 90}),
        ),
        st.builds(MoveCircuit, board=boards, circuit=circuits, to=st.integers(-2, 5)),
        st.builds(SetOutcome, item=items, mark=st.none() | st.sampled_from(list(InspectionOutcome)), note=TEXTS),
        st.builds(AddItem, title=st.sampled_from(["Stage lighting", ""])),
        st.builds(RemoveItem, item=_one_of(own.item for own in job.own_items)),
        st.builds(
            Observe,
            finding=TEXTS,
            code=st.sampled_from(list(Code)),
            items=st.lists(items, max_size=2).map(tuple),
            answers=st.lists(_places(job), max_size=2).map(tuple),
            reason=_SHORT,
            observation=st.just("") | _one_of(each.id for each in job.observations),
        ),
        st.builds(
            AnswerFailures,
            observation=_one_of(each.id for each in job.observations),
            answers=st.lists(_places(job), max_size=3).map(tuple),
        ),
        st.builds(
            RecordAction,
            observation=_one_of(each.id for each in job.observations),
            action=st.builds(ImmediateAction, made_safe=st.booleans(), how=_SHORT, told=_SHORT, told_at=_SHORT),
        ),
        st.builds(
            Explain,
            check=st.just("insulation"),
            place=_places(job),
            reason=st.sampled_from(["Surge device left in", ""]),
            by=st.just(INSPECTOR),
            on=st.just(ON),
        ),
        st.builds(
            AddPicture,
            picture=_one_of(each.id for each in job.observations).map(lambda at: picture(Place(observation=at))),
        ),
        st.builds(RemovePicture, picture=_one_of(each.id for each in job.pictures)),
        st.builds(Withdraw, observation=_one_of(each.id for each in job.observations)),
        st.builds(Choose, chosen=st.builds(ChosenPapers, form_set=st.sampled_from(list(FormSet)))),
    )


def _places(job: Job) -> st.SearchStrategy[Place]:
    pages = [Place(section=name, box=box) for name, section in SECTIONS.items() for box in boxes_of(section)]
    cells = [
        Place(section="boards", board=board.id, circuit=circuit.id, box=box)
        for board, circuit in job.circuits()
        for box in boxes_of(Circuit)
    ]
    return st.sampled_from([*pages, *cells])


def _one_of(ids) -> st.SearchStrategy[str]:
    return st.sampled_from([*ids, "nowhere"])
