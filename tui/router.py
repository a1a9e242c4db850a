"""Turns routes into screens. Each screen is loaded when somebody goes there, so that the first is there at once."""

from __future__ import annotations

from functools import partial, singledispatch
from typing import TYPE_CHECKING, Any

from tui import routes

if TYPE_CHECKING:
    from collections.abc import Callable

    from textual.screen import Screen

    from domain.job.job import Job
    from domain.place import Place
    from tui.job_page import JobPage
    from tui.screens.job_session import JobSession
    from tui.screens.job_step import JobStep, StepHost
    from tui.services import Services


@singledispatch
def screen_for(route: routes.Route, services: Services) -> Screen[Any]:
    """The screen a route leads to, not shown yet."""
    raise LookupError(f"no screen for {route}")


@screen_for.register(routes.ToIntake)
def _intake(route: routes.ToIntake, _: Services) -> Screen[Any]:
    from tui.screens.intake import IntakeScreen

    return IntakeScreen(practises=route.practises)


@screen_for.register(routes.ToJob)
def _job(route: routes.ToJob, services: Services) -> Screen[Any]:
    from tui.job_page import JobPage

    return _on_step(services, route.number, route.step or JobPage.DETAILS, route.place, route.begun)


@screen_for.register(routes.ToJobAsLeft)
def _job_as_left(route: routes.ToJobAsLeft, services: Services) -> Screen[Any]:
    from tui.job_page import step_of
    from tui.screens.position_note import read_note

    left = route.open_at
    return _on_step(services, route.number, *((step_of(left), left) if left else read_note(route.note)))


@screen_for.register(routes.ToIssued)
def _issued(route: routes.ToIssued, _: Services) -> Screen[Any]:
    from tui.screens.issued import IssuedScreen

    return IssuedScreen(route.number)


def _on_step(
    services: Services, number: str, step: JobPage, place: Place | None, begun: Job | None = None
) -> Screen[Any]:
    from tui.screens.job_screen import JobScreen

    return JobScreen(services, number, _part(step), place, begun)


def _part(step: JobPage) -> Callable[[JobSession, StepHost], JobStep]:
    """What makes the step's own part of the screen."""
    from tui.job_page import JobPage

    match step:
        case JobPage.DETAILS:
            from tui.screens.details import DetailsStep

            return DetailsStep
        case JobPage.CIRCUITS | JobPage.RESULTS:
            return _schedule(step)
        case JobPage.INSPECTION:
            from tui.screens.inspection import InspectionStep

            return InspectionStep
        case JobPage.RAISED:
            from tui.screens.raised import RaisedStep

            return RaisedStep
        case JobPage.REVIEW:
            from tui.screens.review import ReviewStep

            return ReviewStep
        case JobPage.ISSUE:
            from tui.screens.issue import IssueStep

            return IssueStep


def _schedule(step: JobPage) -> Callable[[JobSession, StepHost], JobStep]:
    from tui.screens.circuits import CIRCUITS
    from tui.screens.results import RESULTS
    from tui.screens.schedule import ScheduleStep

    return partial(ScheduleStep, CIRCUITS if step is CIRCUITS.page else RESULTS)


@screen_for.register(routes.ToDecision)
def _decision(route: routes.ToDecision, _: Services) -> Screen[Any]:
    from tui.screens.decision import DecisionScreen

    return DecisionScreen(route.advice, route.answers, route.origin, keep=route.keep)


@screen_for.register(routes.ToOwed)
def _owed(route: routes.ToOwed, _: Services) -> Screen[Any]:
    from tui.screens.owed import OwedScreen

    return OwedScreen(route.asking, route.owing, route.keep, told=route.told)


@screen_for.register(routes.ToFind)
def _find(route: routes.ToFind, _: Services) -> Screen[Any]:
    from tui.screens.find import FindScreen

    return FindScreen(route.words)


@screen_for.register(routes.ToDue)
def _due(_: routes.ToDue, __: Services) -> Screen[Any]:
    from tui.screens.due import DueScreen

    return DueScreen()


@screen_for.register(routes.ToRegisters)
def _registers(_: routes.ToRegisters, __: Services) -> Screen[Any]:
    from tui.screens.register import RegisterScreen

    return RegisterScreen()


@screen_for.register(routes.ToKeeping)
def _keeping(_route: routes.ToKeeping, _: Services) -> Screen[Any]:
    from tui.screens.keeping import KeepingScreen

    return KeepingScreen()


@screen_for.register(routes.ToOffice)
def _office(_route: routes.ToOffice, services: Services) -> Screen[Any]:
    from tui.screens.keeping import KeepingScreen
    from tui.screens.office import TasksOfOffice

    return KeepingScreen(TasksOfOffice(services))


@screen_for.register(routes.ToSettle)
def _settle(_route: routes.ToSettle, _: Services) -> Screen[Any]:
    from tui.screens.settle import SettleScreen

    return SettleScreen()


@screen_for.register(routes.ToRegisterPick)
def _register_pick(route: routes.ToRegisterPick, _: Services) -> Screen[Any]:
    from tui.screens.register import RegisterScreen

    return RegisterScreen(route.kind, route.take)


@screen_for.register(routes.ToWhoPractises)
def _who_practises(_: routes.ToWhoPractises, services: Services) -> Screen[Any]:
    from tui.screens.practice import who_question

    return who_question(services)


@screen_for.register(routes.ToPractice)
def _practice(route: routes.ToPractice, _: Services) -> Screen[Any]:
    from tui.screens.practice import PracticeScreen

    return PracticeScreen(route.who)


@screen_for.register(routes.ToPracticeSummary)
def _practice_summary(route: routes.ToPracticeSummary, _: Services) -> Screen[Any]:
    from tui.screens.practice_summary import PracticeSummaryScreen

    return PracticeSummaryScreen(route.who)


@screen_for.register(routes.ToTrail)
def _trail(route: routes.ToTrail, _: Services) -> Screen[Any]:
    from tui.screens.trail import TrailScreen

    return TrailScreen(route.number)


@screen_for.register(routes.ToVisitSheet)
def _visit_sheet(route: routes.ToVisitSheet, _: Services) -> Screen[Any]:
    from tui.screens.visit_sheet import VisitSheetScreen

    return VisitSheetScreen(route.job)


@screen_for.register(routes.ToLastTime)
def _last_time(route: routes.ToLastTime, _: Services) -> Screen[Any]:
    from tui.screens.last_time import LastTimeScreen

    return LastTimeScreen(route.job, route.do)


@screen_for.register(routes.ToReadings)
def _readings(route: routes.ToReadings, _: Services) -> Screen[Any]:
    from tui.screens.readings import ReadingsScreen

    return ReadingsScreen(route.job, route.history, route.changes)


@screen_for.register(routes.ToMatch)
def _match(route: routes.ToMatch, _: Services) -> Screen[Any]:
    from tui.screens.match import MatchScreen

    return MatchScreen(route.circuit, route.earlier, route.was, route.take)


@screen_for.register(routes.ToFilledBoards)
def _filled_boards(route: routes.ToFilledBoards, _: Services) -> Screen[Any]:
    from tui.screens.filled_boards import FilledBoardsScreen

    return FilledBoardsScreen(route.here, route.take)


@screen_for.register(routes.ToPutRight)
def _put_right(route: routes.ToPutRight, _: Services) -> Screen[Any]:
    from tui.screens.put_right import PutRightScreen

    return PutRightScreen(route.report)


@screen_for.register(routes.ToRemedy)
def _remedy(route: routes.ToRemedy, _: Services) -> Screen[Any]:
    from tui.screens.remedy import RemedyScreen

    return RemedyScreen(route.what, route.origin)


@screen_for.register(routes.ToHelp)
def _help(route: routes.ToHelp, _: Services) -> Screen[Any]:
    from tui.screens.help import HelpScreen

    return HelpScreen(route.over)


@screen_for.register(routes.ToPalette)
def _palette(route: routes.ToPalette, _: Services) -> Screen[Any]:
    from tui.screens.palette import PaletteScreen

    return PaletteScreen(list(route.doings))


@screen_for.register(routes.ToLeaving)
def _leaving(route: routes.ToLeaving, _: Services) -> Screen[Any]:
    from tui.screens.dialogs import ConfirmScreen

    return ConfirmScreen(route.question)
