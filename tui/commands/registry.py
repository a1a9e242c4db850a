"""Every command, in the order `help` lists them."""

from tui.commands import (
    backup,
    bring_in,
    check,
    choose,
    codes,
    demo,
    due,
    figure,
    find,
    hand_over,
    issue,
    practice,
    read_in,
    replace,
    restore,
    schema,
    tend,
    verify,
)
from tui.commands.command import Command

COMMANDS: tuple[Command, ...] = (
    demo.COMMAND,
    choose.COMMAND,
    codes.COMMAND,
    check.COMMAND,
    figure.COMMAND,
    issue.COMMAND,
    replace.COMMAND,
    find.COMMAND,
    verify.COMMAND,
    due.COMMAND,
    practice.COMMAND,
    bring_in.COMMAND,
    hand_over.COMMAND,
    read_in.COMMAND,
    backup.COMMAND,
    restore.COMMAND,
    tend.COMMAND,
    schema.COMMAND,
)
