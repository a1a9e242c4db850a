"""Opens the terminal screens, and sees to it that a dropped line loses nothing."""

import asyncio
import signal

from tui.app import OhmfolioApp
from tui.desk import Desk


def open_screens(desk: Desk) -> int:
    """Run the screens until the person leaves or the line drops; the exit code."""
    app = OhmfolioApp(desk)

    async def run() -> None:
        loop = asyncio.get_running_loop()
        for lost in (signal.SIGHUP, signal.SIGTERM):
            loop.add_signal_handler(lost, app.action_leave)
        await app.run_async(mouse=False)

    try:
        asyncio.run(run())
    finally:
        desk.log.close()
    return app.return_code or 0
