"""At the rack: boards called out one a line, each judged against the pile so far."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from scantling.cli.told_here import told_here
from scantling.errors import FileFaults, InputError

if TYPE_CHECKING:
    from scantling.papers.sheets.show import Show
    from scantling.stock.boards.board import Board
    from scantling.stock.buying.yard import Needs
    from scantling.stock.layouts.layout import Layout

__all__ = ["Yard", "yard"]

_HELP = """\
One board a line: {form}
  such as  A1, 5/4, 8 ft, 7 1/2 in, 11.50; knot at 620 x 40, 90 x 50; flitch K 3; rings quarter
no           the other way: put back what was taken, take what was put back
drop NAME    take a board off the pile
?            what has no wood yet
pile         the pile and its tally
help         this again
end          the end"""
_ENDS = frozenset({"end", "quit", "exit"})


def _help() -> str:
    from scantling.stock.boards.yardline import FORM

    return _HELP.format(form=FORM)


@dataclass(slots=True)
class Yard:
    """The pile so far, and the last board judged."""

    needs: Needs
    show: Show
    wood: str
    per: str
    pile: list[Board] = field(default_factory=list)
    before: list[Board] = field(default_factory=list)
    lifted: Board | None = None
    layout: Layout | None = None

    def answers(self, lines: Iterable[str]) -> Iterator[str]:
        """What is said to each line, until the end."""
        for line in (raw.strip() for raw in lines):
            word, _, rest = line.partition(" ")
            if line.lower() in _ENDS:
                return
            if line.lower() == "help":
                yield _help()
            elif line == "?":
                yield self.missing()
            elif line == "pile":
                yield self.tally()
            elif line == "no":
                yield self.other_way()
            elif word == "drop" and rest and "," not in line:
                yield self.drop(rest.strip())
            elif line:
                yield self.board(line)

    def board(self, line: str) -> str:
        """Judge a board, and do as advised."""
        from scantling.papers.words.naming import names_of
        from scantling.stock.boards.yardline import board_of_line
        from scantling.stock.buying.yard import Verdict, judge_board

        try:
            board = board_of_line(line, wood=self.wood, per=self.per)
        except FileFaults as error:
            return "\n".join(told_here(fault) for fault in error.faults)
        except InputError as error:
            return told_here(error.fault)
        if any(b.name == board.name for b in self.pile):
            return f"{board.name} is on the pile already; call this one otherwise."
        answer = judge_board(board, self.pile, needs=self.needs, before=self.layout)
        self.before, self.lifted, self.layout = list(self.pile), board, answer.layout
        said = f"{answer.verdict.upper()}. {answer.reason}"
        if answer.verdict is not Verdict.PUT_BACK:
            self.pile = [b for b in self.pile if b.name not in answer.give_back] + [board]
        if answer.grants:
            said += f" Granted with it: {names_of(answer.grants)}."
        if answer.gains:
            said += f" For: {names_of(answer.gains)}."
        if answer.give_back:
            self.layout = None
            said += f" Give back {', '.join(answer.give_back)}."
        enough = f" The pile is enough. {answer.spare.words}".rstrip() if answer.enough else ""
        return f"{said} Covered: {answer.covered_pct:.0f} %.{enough}"

    def other_way(self) -> str:
        """Against the advice."""
        if self.lifted is None:
            return "No board has been called out yet."
        taken = any(b.name == self.lifted.name for b in self.pile)
        self.pile = self.before if taken else [*self.before, self.lifted]
        self.layout = None
        return f"{self.lifted.name} {'put back' if taken else 'taken'}. {self.covered()}"

    def drop(self, name: str) -> str:
        """Take a board off the pile."""
        if not any(b.name == name for b in self.pile):
            return f"The pile holds no {name}."
        self.pile = [b for b in self.pile if b.name != name]
        self.layout, self.lifted = None, None
        return f"{name} put back. {self.covered()}"

    def laid(self) -> Layout:
        """The pile laid out, once."""
        from scantling.stock.buying.yard import lay_pile

        self.layout = self.layout or lay_pile(self.pile, self.needs)
        return self.layout

    def covered(self) -> str:
        """Whether the pile is enough."""
        from scantling.stock.buying.yard import spare_of, thicker_words

        if not self.laid().complete:
            return self.missing()
        spare = spare_of(self.laid(), self.pile).words
        thick = thicker_words(self.laid(), self.needs)
        return " ".join(filter(None, ("The pile is enough.", thick, spare))) + self.wishes()

    def missing(self) -> str:
        """What has no wood yet."""
        from scantling.stock.buying.yard import missing_of

        found = missing_of(self.laid(), self.needs)
        if not found:
            return f"Nothing is missing.{self.wishes()}"
        lines = [f"  {name.replace('_', ' ')}: {self.show.by(*sizes, unit=True)}" for name, *sizes in found]
        return "\n".join(["Still without wood (length × width × thickness):", *lines]) + self.wishes()

    def wishes(self) -> str:
        """Wishes the pile does not grant; empty where there are none."""
        left = [a.wish for a in self.laid().wishes if not a.granted]
        named = "; ".join(f"{wish.name.replace('_', ' ')} ({wish.kind})" for wish in left)
        return f"\nNot granted yet: {named}." if left else ""

    def tally(self) -> str:
        """The pile, tallied."""
        from scantling.stock.boards.tally import tally_stacks

        stacks = tally_stacks(self.pile)
        if not stacks:
            return "The pile is empty."
        lines = [
            f"  {s.nominal} {s.species}: {_boards(s.boards)}, {s.tally_board_feet:g} bf by the tally, "
            f"{s.board_feet:.1f} bf as measured" + ("" if s.price is None else f", {s.price:,.2f}")
            for s in stacks
        ]
        return "\n".join([f"On the pile: {', '.join(b.name for b in self.pile)}", *lines])


def _boards(number: int) -> str:
    return "1 board" if number == 1 else f"{number} boards"


def yard(options: argparse.Namespace) -> int:
    """Judge boards as they are called out, and keep the pile."""
    from pathlib import Path

    from scantling.cli.job import job_of
    from scantling.cli.writing import refuse_output, write_bytes
    from scantling.papers.sheets.show import Show
    from scantling.plan.planner import make_plan
    from scantling.plan.timber.timber import yard_needs
    from scantling.stock.boards.rack_text import rack_csv
    from scantling.stock.racks.rack import read_rack

    if options.output:
        refuse_output(options.output, ending=".csv", force=options.force)
    job = job_of(options)
    plan = make_plan(job)
    timber = plan.timber
    woods = [b.species for b in timber.blanks] + [p.species for p in timber.panels]
    state = Yard(
        needs=yard_needs(timber, job.shop, piece=job.piece),
        show=Show.of(plan),
        wood=options.wood or max(sorted(set(woods)), key=woods.count, default=""),
        per=options.price_per,
        pile=list(read_rack(Path(options.pile)).boards) if options.pile else [],
    )
    print(_help())
    for said in state.answers(sys.stdin):
        print(said, flush=True)
    print(state.tally())
    print(state.covered())
    if options.output and state.pile:
        write_bytes(options.output, rack_csv(state.pile).encode())
        print(f"{options.output}: {_boards(len(state.pile))}")
    return 0
