"""A draft is kept as the text that its job gives, however little of it an edit made anew."""

from domain.editing.commands import AddBoard, Enter, RemoveBoard
from domain.place import Place
from storage.rows import draft_of
from tests.builders import complete_certificate, done


def test_a_draft_of_several_boards_is_the_text_of_the_whole_job_after_every_edit() -> None:
    job = done(complete_certificate(sign=False), AddBoard())
    first, second = job.boards
    circuit = first.circuits[-1]
    edits = (
        Enter(place=Place(section="boards", board=first.id, circuit=circuit.id, box="zs"), text="0.61"),
        Enter(place=Place(section="boards", board=second.id, box="location"), text='"boards":[], \\"boards\\":[]'),
        Enter(place=Place(section="client", box="name"), text='Ada "boards":[] Pennyfold'),
        AddBoard(),
        Enter(place=Place(section="boards", board=first.id, circuit=circuit.id, box="remarks"), text="\\u0022 ü {}"),
        RemoveBoard(board=second.id),
        Enter(place=Place(section="boards", board=first.id, box="designation"), text="DB9"),
    )
    assert draft_of(job) == job.model_dump_json()
    for edit in edits:
        job = done(job, edit)
        assert draft_of(job) == job.model_dump_json(), edit
