"""Which screen serves which step of a job."""

from collections.abc import Mapping

from tui.job_page import JobPage
from tui.screens.circuits import CircuitsScreen
from tui.screens.details import DetailsScreen
from tui.screens.inspection import InspectionScreen
from tui.screens.issue import IssueScreen
from tui.screens.job_screen import JobScreen
from tui.screens.raised import RaisedScreen
from tui.screens.results import ResultsScreen
from tui.screens.review import ReviewScreen

SCREENS: Mapping[JobPage, type[JobScreen]] = {
    JobPage.DETAILS: DetailsScreen,
    JobPage.CIRCUITS: CircuitsScreen,
    JobPage.RESULTS: ResultsScreen,
    JobPage.INSPECTION: InspectionScreen,
    JobPage.RAISED: RaisedScreen,
    JobPage.REVIEW: ReviewScreen,
    JobPage.ISSUE: IssueScreen,
}
