"""Two entries of a register that are one thing in the world, made one."""

from domain.register.entries import Instrument, RegisterEntry


def merged(stays: RegisterEntry, goes: RegisterEntry) -> RegisterEntry | None:
    """The entry that stays, with what it lacks from the one that goes; None where the two are of different registers.

    What both say stays as the one that stays has it, and so does what a person may sign: merging gives nobody a right.
    Cross-checks of an instrument are kept in the order of their days.
    """
    if stays.kind != goes.kind:
        return None
    kept_apart = {"kind", "signs", "checks"}
    lacking = {
        name: getattr(goes, name)
        for name in type(stays).model_fields
        if name not in kept_apart and not str(getattr(stays, name)).strip()
    }
    if isinstance(stays, Instrument) and isinstance(goes, Instrument):
        both = dict.fromkeys((*stays.checks, *goes.checks))
        lacking["checks"] = tuple(sorted(both, key=lambda check: check.on))
    return stays.model_copy(update=lacking)
