"""What an issued paper teaches the registers, so that nobody types it a second time.

People are not learnt: what somebody may sign is for the office to say.
"""

from domain.job.box import typed_in
from domain.job.instrument import INSTRUMENTS, due_box
from domain.job.job import Job
from domain.register.entries import Instrument, KnownClient, KnownFirm, KnownPremises, RegisterEntry
from domain.value import says_nothing


def learnt_from(job: Job) -> tuple[RegisterEntry, ...]:
    """Client, premises, firm and instruments of a paper, those that it names."""
    client, premises, firm = job.client, job.premises, job.firm
    found: list[RegisterEntry] = []
    if not says_nothing(client.name):
        found.append(
            KnownClient(name=client.name, address=client.address, postcode=client.postcode, contact=client.contact)
        )
    if not says_nothing(premises.address):
        found.append(
            KnownPremises(
                address=premises.address,
                postcode="" if says_nothing(premises.postcode) else premises.postcode,
                occupier=premises.occupier,
                use=premises.use,
            )
        )
    if not says_nothing(firm.name):
        found.append(KnownFirm(name=firm.name, address=firm.address, contact=firm.contact, membership=firm.membership))
    return (*found, *_instruments(job))


def _instruments(job: Job) -> tuple[Instrument, ...]:
    held = job.instruments
    return tuple(
        Instrument(serial=serial, name=name, due=typed_in(held, due_box(box)))
        for box, name in INSTRUMENTS.items()
        if not says_nothing(serial := typed_in(held, box))
    )
