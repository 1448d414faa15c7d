"""Order of work: tasks, hours, drying used for other work, the longest chain, and a proven bound."""

from scantling.schedule.calendar import Calendar, Weekday
from scantling.schedule.critical import CriticalPath, TaskFloat, critical_path
from scantling.schedule.solving import Method, solutions, solve
from scantling.schedule.stopping import Stop
from scantling.schedule.task import Hold, Split, Task
from scantling.schedule.timetable import Block, Day, Entry, Meanwhile, Timetable

__all__ = [
    "Block",
    "Calendar",
    "CriticalPath",
    "Day",
    "Entry",
    "Hold",
    "Meanwhile",
    "Method",
    "Split",
    "Stop",
    "Task",
    "TaskFloat",
    "Timetable",
    "Weekday",
    "critical_path",
    "solutions",
    "solve",
]
