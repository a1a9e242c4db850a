"""The letter that confirms that a report has been put right: it says what the papers say, and no more."""

from datetime import date

from domain.dates import written
from domain.next_due import done_on
from domain.put_right.standing import PutRight
from domain.sheets.sheet import Cell, Column, Entry, Group, Listing, Note, Signing, Standing, TextSheet
from domain.value import Value

TITLE = "Confirmation of work put right"
_COLUMNS = (
    Column("No.", 5),
    Column("Code", 6),
    Column("What the report found", 44, centred=False),
    Column("Put right according to", 40, centred=False),
)
_CONFIRMS = (
    "The report named above was **unsatisfactory**: it held observations coded C1, C2 or FI. The papers listed below are "
    "on our file. According to them each of these observations has since been put right, or was looked into and nothing "
    "wrong was found."
)
_NO_MORE = (
    "This letter is **no certificate and no new report**. No inspection was made for it: it repeats what the papers say, "
    "and whoever issued them answers for them. The report stays as it was issued. Keep this letter with the report and "
    "with copies of the papers. Observations coded C3 are recommendations and are not dealt with here. How soon and to "
    "whom a landlord must pass this on differs between the nations: check the law of the place. For when the next "
    "inspection is due, see the report."
)


class Letter(Value):
    """What the letter is made from."""

    standing: PutRight
    on: date


def letter_sheet(letter: Letter) -> TextSheet:
    """The letter as a sheet, to be signed by hand."""
    report = letter.standing.report
    inspected = done_on(report)
    numbers = {each.id: at for at, each in enumerate(report.observations, start=1)}
    rows = tuple(
        (
            Cell(str(numbers[item.observation.id]), Standing.OURS),
            Cell(item.observation.code),
            Cell(item.observation.finding),
            Cell(item.paper),
        )
        for item in sorted(letter.standing.items, key=lambda item: numbers[item.observation.id])
    )
    return TextSheet(
        TITLE,
        f"Of {written(letter.on)}, on report {report.number}",
        (
            Group(
                "To",
                (
                    (Entry("Client", report.client.name, weight=2), Entry("Report", report.number)),
                    (
                        Entry("Address", report.client.address, weight=2),
                        Entry("Inspected", written(inspected)) if inspected else _blank("Inspected"),
                    ),
                    (
                        Entry("Installation", report.premises.address, weight=2),
                        Entry("Postcode", report.premises.postcode),
                    ),
                ),
            ),
            Note(_CONFIRMS, "What this letter confirms"),
            Listing("Put right", _COLUMNS, rows),
            Note(_NO_MORE, "What this letter is, and what it is not"),
            Signing(
                "For the firm",
                "I have compared the papers listed with the observations of the report.",
                (
                    (Entry("Firm", report.firm.name, weight=2), Entry("Address", report.firm.address, weight=3)),
                    (_blank("Name", 2), _blank("Position", 2)),
                    (_blank("Signature", 4), _blank("Date", 2)),
                ),
            ),
        ),
        opens=True,
    )


def _blank(label: str, weight: int = 1) -> Entry:
    return Entry(label, "", standing=Standing.BLANK, weight=weight)
