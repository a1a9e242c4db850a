"""What a shell completes after `ohmfolio`, asked by the shell while somebody types."""

from collections.abc import Mapping

import click
from click.shell_completion import CompletionItem, ShellComplete, get_completion_class

from tui.commands.parsing import parser_of
from tui.commands.registry import SUMMARIES, command_named

ASKED = "_OHMFOLIO_COMPLETE"
"""The variable by which a shell asks."""
HINTS: Mapping[str, str] = {
    "bash": "echo 'eval \"$(ohmfolio completion bash)\"' >> ~/.bashrc",
    "zsh": "echo 'eval \"$(ohmfolio completion zsh)\"' >> ~/.zshrc   (after compinit)",
    "fish": "ohmfolio completion fish > ~/.config/fish/completions/ohmfolio.fish",
}
"""How each shell keeps it."""


class _Commands(click.Group):
    """All commands, each loaded only when its options are asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(SUMMARIES)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        return parser_of(command_named(cmd_name)) if cmd_name in SUMMARIES else None

    def shell_complete(self, ctx: click.Context, incomplete: str) -> list[CompletionItem[str]]:
        options = [] if not incomplete.startswith("-") else ["--version", "--help"]
        known = [*((name, says) for name, says in SUMMARIES.items()), *((option, "") for option in options)]
        return [CompletionItem(name, help=says) for name, says in known if name.startswith(incomplete)]


def script_for(shell: str) -> str:
    """What the shell runs, with how it is kept as comments at its head."""
    # The general form, for the one of bash starts a bash to ask its version.
    script = ShellComplete.source(_complete_for(shell))
    first, _, rest = script.partition("\n")
    hint = f"# Kept for every new shell by: {HINTS[shell]}"
    return "\n".join([first, hint, rest] if first.startswith("#") else [hint, script]).rstrip("\n")


def answer(asked: str) -> int:
    """Answer a shell that asks what may stand where somebody types; the exit code."""
    shell = asked.removesuffix("_complete")
    if shell in HINTS:
        print(_complete_for(shell).complete())
    return 0


def _complete_for(shell: str) -> ShellComplete:
    kind = get_completion_class(shell)
    assert kind, shell
    return kind(_Commands("ohmfolio"), {}, "ohmfolio", ASKED)
