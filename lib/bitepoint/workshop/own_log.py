"""Road-test logs of one's own, whole: map the columns, read the log, judge it for a vehicle.

>>> from bitepoint.workshop.own_log import map_template
>>> print(map_template().splitlines()[0])
# Column map of a road-test log. Compare each line with the file.
"""

from bitepoint.workshop.own_logs.judging import OwnLogResult, judge_log, result_from, result_json
from bitepoint.workshop.own_logs.log_map import LogMap, MappedColumn
from bitepoint.workshop.own_logs.map_file import map_from, map_template, read_map
from bitepoint.workshop.own_logs.proposal import Guess, Proposal, propose_map
from bitepoint.workshop.own_logs.reading import OwnLog, read_log

__all__ = [
    "Guess",
    "LogMap",
    "MappedColumn",
    "OwnLog",
    "OwnLogResult",
    "Proposal",
    "judge_log",
    "map_from",
    "map_template",
    "propose_map",
    "read_log",
    "read_map",
    "result_from",
    "result_json",
]
