"""How good a layout is, in words, while a search goes on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scantling.stock.solving.doing import Doing

if TYPE_CHECKING:
    from scantling.stock.layouts.layout import Layout

__all__ = ["beside_words", "layout_words", "still_words"]

_CENT = 0.005
_DOING = {
    Doing.BY_WORTH: "board after board is taken by what it gives for its price",
    Doing.AT_ONCE: "all boards are being laid out at once",
    Doing.LOTS: "a dozen boards at a time are being laid out anew",
    Doing.BOTH: "cheaper layouts and a higher bound are being looked for",
}


def layout_words(layout: Layout, *, money: str, proven: bool) -> str:
    """What has no wood, which musts are broken, price, bound and gap.

    Parameters
    ----------
    layout
        Parts on boards.
    money
        Currency.
    proven
        Whether no layout is better.
    """
    said = [f"{layout.missing_count} without wood" if layout.missing_count else "every blank has its place"]
    if layout.musts_broken:
        said.append(_musts(layout.musts_broken))
    if layout.price is not None:
        said.append(f"{layout.price:,.2f} {money}")
    if layout.bound_price is not None:
        said.append(f"cannot cost less than {layout.bound_price:,.2f}")
    if layout.gap_pct is not None:
        said.append("proven best" if proven else f"at most {layout.gap_pct:.1f} % above the best")
    return ", ".join(said)


def still_words(doing: Doing) -> str:
    """What a search is at that has no news."""
    return f"nothing better yet; {_DOING[doing]}"


def _musts(count: int) -> str:
    return f"{count or 'no'} {'must' if count == 1 else 'musts'} broken"


def beside_words(layout: Layout, before: Layout, *, money: str, better: bool) -> str:
    """How a layout stands beside the one shown before.

    Parameters
    ----------
    layout, before
        The new one, and the one shown.
    money
        Currency.
    better
        Whether the new one is the better of them.
    """
    if not better:
        return "Not better than the layout below yet."
    kept = before.musts_broken - layout.musts_broken
    if kept > 0:
        return f"{_musts(layout.musts_broken).capitalize()}, {kept} fewer than in the layout below."
    fewer = before.missing_count - layout.missing_count
    if fewer > 0:
        return f"{fewer} more with wood than in the layout below."
    if layout.price is not None and before.price is not None and before.price - layout.price >= _CENT:
        return f"{before.price - layout.price:,.2f} {money} less than the layout below."
    return "Better than the layout below by what the shop weighs."
