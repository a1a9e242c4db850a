"""Keys of every step of a job: the steps, and what is done to the job as a whole."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key(
        "details",
        "f3",
        "step('details')",
        "Details",
        "Client, premises, the work or the report, supply, earthing, boards.",
        foot=False,
    ),
    Key("circuits", "f4", "step('circuits')", "Circuits", "The schedule of circuit details.", foot=False),
    Key("results", "f5", "step('results')", "Results", "The schedule of test results.", foot=False),
    Key("inspection", "f6", "step('inspection')", "Inspect", "The inspection items with their outcomes.", foot=False),
    Key("raised", "f7", "step('raised')", "Snags", "The snagging list, or on a report the observations.", foot=False),
    Key(
        "review",
        "f8",
        "step('review')",
        "Check",
        "Everything found and everything still missing, each with its place.",
        foot=False,
    ),
    Key("issue", "f9", "step('issue')", "Issue", "Signatures, the draft, and issuing the pack.", foot=False),
    Key(
        "go",
        "ctrl+f",
        "go",
        "Go to",
        "Goes to a circuit of this job by its number, or finds any job by words of it.",
        foot=False,
    ),
    Key(
        "undo",
        "ctrl+u",
        "undo",
        "Undo",
        "Takes back what you did last in this job; again for what came before.",
        foot=False,
    ),
    Key("redo", "ctrl+v", "redo", "Redo", "Does again what you took back last.", foot=False),
    Key("trail", "ctrl+w", "trail", "Trail", "Lists who changed what in this job, and when.", foot=False),
    Key(
        "last-time",
        "ctrl+k",
        "last_time",
        "Last time",
        "Lays what was found at this address before beside what is found now.",
        foot=False,
    ),
    Key(
        "visit-sheet",
        "ctrl+t",
        "visit_sheet",
        "Visit sheet",
        "Shows on one page what to have in hand on site: isolation, what not to switch off, order of tests, instruments.",
        foot=False,
    ),
    Key(
        "next-open", "ctrl+g", "next_open", "Next open", "Goes to the next thing that keeps this job from being issued."
    ),
)
