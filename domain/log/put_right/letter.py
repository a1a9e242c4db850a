"""The letter that confirms that a report has been put right: it says what the papers say, and no more."""

from datetime import date

from domain.dates import written
from domain.job.next_due import done_on
from domain.log.put_right.remedial_status import PutRight
from domain.sheets.sheet import (
    Listing,
    SheetCell,
    SheetColumn,
    SheetEntry,
    SheetGroup,
    SheetNote,
    Signing,
    TextSheet,
    ValueOrigin,
)
from domain.value import Value

TITLE = "Confirmation of work put right"
_COLUMNS = (
    SheetColumn("No.", 6),
    SheetColumn("Code", 8),
    SheetColumn("What the report found", 44, centred=False),
    SheetColumn("Put right according to", 40, centred=False),
)
_CONFIRMS = (
    "The report named above held observations coded C1, C2 or FI. The papers listed below are "
    "on our file. According to them each of these observations has since been put right, or was looked into and nothing "
    "wrong was found. Where a like-for-like exchange needed no certificate, our own record says what was done, by whom and when."
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

    put_right: PutRight
    on: date


def letter_sheet(letter: Letter) -> TextSheet:
    """The letter as a sheet, to be signed by hand; long because it stands in the order in which it is read."""
    report = letter.put_right.report
    seen = report.chosen.seen
    number = f"{seen.number} of {seen.firm}" if seen else report.number
    inspected = done_on(report)
    numbers = {each.id: at for at, each in enumerate(report.observations, start=1)}
    rows = tuple(
        (
            SheetCell(str(numbers[item.observation.id]), ValueOrigin.OURS),
            SheetCell(item.observation.code),
            SheetCell(item.observation.finding),
            SheetCell(item.paper),
        )
        for item in sorted(letter.put_right.items, key=lambda item: numbers[item.observation.id])
    )
    return TextSheet(
        TITLE,
        f"Of {written(letter.on)}, on report {number}",
        (
            SheetGroup(
                "To",
                (
                    (SheetEntry("Client", report.client.name, weight=2), SheetEntry("Report", number)),
                    (
                        SheetEntry("Address", report.client.address, weight=2),
                        SheetEntry("Inspected", written(inspected)) if inspected else _blank("Inspected"),
                    ),
                    (
                        SheetEntry("Installation", report.premises.address, weight=2),
                        SheetEntry("Postcode", report.premises.postcode),
                    ),
                ),
            ),
            SheetNote(_CONFIRMS, "What this letter confirms"),
            Listing("Put right", _COLUMNS, rows),
            SheetNote(_NO_MORE, "What this letter is, and what it is not"),
            Signing(
                "For the firm",
                "I have compared the papers listed with the observations of the report.",
                (
                    (
                        SheetEntry("Firm", report.firm.name, weight=2),
                        SheetEntry("Address", report.firm.address, weight=3),
                    ),
                    (_blank("Name", 2), _blank("Position", 2)),
                    (_blank("Signature", 4), _blank("Date", 2)),
                ),
            ),
        ),
        opens=True,
    )


def _blank(label: str, weight: int = 1) -> SheetEntry:
    return SheetEntry(label, "", origin=ValueOrigin.BLANK, weight=weight)
