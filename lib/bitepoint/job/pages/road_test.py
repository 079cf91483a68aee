"""The pictures of a job's road test, drawn from the copy of the log in its folder."""

from markupsafe import Markup

from bitepoint.classroom.posters.images import image
from bitepoint.errors import BitepointError
from bitepoint.job.events import RoadTest
from bitepoint.job.state import ROAD_TESTS, WorkshopJob, is_plain_name
from bitepoint.pictures.framing import framed
from bitepoint.pictures.logs.own_log import own_log_pictures
from bitepoint.workshop.own_log import read_log, read_map, result_from

_FRAME = "COMPARE WITH THE REPAIR DATA · TRAINING RECORD"


def road_test_pictures(job: WorkshopJob, test: RoadTest) -> list[tuple[Markup, str]]:
    """Return the course, the slip and the shake of a road test as images with what they show; none where its log is not in the folder any more."""
    if not all(
        file.startswith(f"{ROAD_TESTS}/") and is_plain_name(file[len(ROAD_TESTS) + 1 :])
        for file in (test.log, test.map)
    ):
        return []
    try:
        log = read_log(job.folder / test.log, read_map(job.folder / test.map))
        with framed(job.vehicle.frame if job.training else _FRAME):
            return [(image(drawing), drawing.caption) for drawing in own_log_pictures(log, result_from(test.result))]
    except (BitepointError, OSError):
        # The words of the verdict stand in the record; a log that was lost since takes only its pictures with it.
        return []
