"""Reads a matrix code of version 2 to 6 after ISO/IEC 18004, sharing nothing with what writes it.

Tables from memory of the standard; a slip in them leaves the check words wrong, which is told.
"""

from __future__ import annotations

from itertools import product

__all__ = ["modules_of", "read_code", "version_needed"]

_BLOCKS = {
    (2, "L"): [(44, 34)],
    (2, "M"): [(44, 28)],
    (2, "Q"): [(44, 22)],
    (2, "H"): [(44, 16)],
    (3, "L"): [(70, 55)],
    (3, "M"): [(70, 44)],
    (3, "Q"): [(35, 17)] * 2,
    (3, "H"): [(35, 13)] * 2,
    (4, "L"): [(100, 80)],
    (4, "M"): [(50, 32)] * 2,
    (4, "Q"): [(50, 24)] * 2,
    (4, "H"): [(25, 9)] * 4,
    (5, "L"): [(134, 108)],
    (5, "M"): [(67, 43)] * 2,
    (5, "Q"): [(33, 15)] * 2 + [(34, 16)] * 2,
    (5, "H"): [(33, 11)] * 2 + [(34, 12)] * 2,
    (6, "L"): [(86, 68)] * 2,
    (6, "M"): [(43, 27)] * 4,
    (6, "Q"): [(43, 19)] * 4,
    (6, "H"): [(43, 15)] * 4,
}
"""Words of each block, all and those of data, by version and level (ISO/IEC 18004, error correction)."""
_LEVELS = {1: "L", 0: "M", 3: "Q", 2: "H"}
_MASKS = (
    lambda r, c: (r + c) % 2,
    lambda r, _: r % 2,
    lambda _, c: c % 3,
    lambda r, c: (r + c) % 3,
    lambda r, c: (r // 2 + c // 3) % 2,
    lambda r, c: r * c % 2 + r * c % 3,
    lambda r, c: (r * c % 2 + r * c % 3) % 2,
    lambda r, c: ((r + c) % 2 + r * c % 3) % 2,
)
_FORMAT_MASK = 0b101010000010010


def version_needed(signs: int, level: str = "M") -> int:
    """The least version that holds so many signs of a byte each: 4 bits of mode, 8 of count."""
    return min(
        v for (v, lv), blocks in _BLOCKS.items() if lv == level and sum(d for _, d in blocks) >= signs + 2
    )


def modules_of(drawn: str) -> list[list[bool]]:
    """Dark modules of a code drawn in half blocks, light ones set; the quiet border of four is taken off."""
    halves = {"█": (False, False), "▀": (False, True), "▄": (True, False), " ": (True, True)}
    rows = [list(row) for line in drawn.splitlines() for row in zip(*(halves[x] for x in line), strict=True)]
    side = len(rows[0]) - 8
    quiet = [
        rows[r][c] for r, c in product(range(side + 8), repeat=2) if not {r, c} <= set(range(4, side + 4))
    ]
    assert not any(quiet), "the border must be light"
    return [row[4 : side + 4] for row in rows[4 : side + 4]]


def read_code(dark: list[list[bool]]) -> str:
    """The text in it.

    Parameters
    ----------
    dark
        Rows of modules.

    Raises
    ------
    AssertionError
        It is no sound code: patterns, format or check words are wrong.
    """
    side = len(dark)
    version, odd = divmod(side - 17, 4)
    assert odd == 0
    _patterns(dark)
    level, mask = _format(dark)
    bits = [dark[r][c] ^ (_MASKS[mask](r, c) == 0) for r, c in _path(side)]
    words = [_number(bits[n : n + 8]) for n in range(0, len(bits) - 7, 8)]
    data = [word for block, many in _blocks(words, _BLOCKS[version, level]) for word in block[:many]]
    stream = [bool(word >> k & 1) for word in data for k in range(7, -1, -1)]
    assert _number(stream[:4]) == 0b0100, "bytes"
    signs = _number(stream[4:12])
    return bytes(_number(stream[12 + 8 * n : 20 + 8 * n]) for n in range(signs)).decode()


def _number(bits: list[bool]) -> int:
    return int("".join("01"[bit] for bit in bits), 2)


def _patterns(dark: list[list[bool]]) -> None:
    """Three corners with their rings, and the two lines that count."""
    side = len(dark)
    for top, left in ((0, 0), (0, side - 7), (side - 7, 0)):
        for r, c in product(range(7), repeat=2):
            assert dark[top + r][left + c] is (max(abs(r - 3), abs(c - 3)) != 2)
    for n in range(8, side - 8):
        assert dark[6][n] is dark[n][6] is (n % 2 == 0)


def _format(dark: list[list[bool]]) -> tuple[str, int]:
    """Level and mask, told twice with check bits."""
    side = len(dark)
    first = [*((8, c) for c in (0, 1, 2, 3, 4, 5, 7, 8)), *((r, 8) for r in (7, 5, 4, 3, 2, 1, 0))]
    second = [*((r, 8) for r in range(side - 1, side - 8, -1)), *((8, c) for c in range(side - 8, side))]
    told, again = (_number([dark[r][c] for r, c in places]) ^ _FORMAT_MASK for places in (first, second))
    assert told == again
    rest = told
    for k in range(14, 9, -1):
        rest ^= 0b10100110111 << (k - 10) if rest >> k & 1 else 0
    assert rest == 0
    return _LEVELS[told >> 13], told >> 10 & 7


def _path(side: int) -> list[tuple[int, int]]:
    """Modules of data in their order: pairs of columns from the right, up and down in turn."""

    def kept(r: int, c: int) -> bool:
        corner = (r < 9 and c < 9) or (r < 9 and c >= side - 8) or (r >= side - 8 and c < 9)
        aligned = max(abs(r - (side - 7)), abs(c - (side - 7))) <= 2
        return corner or aligned or r == 6 or c == 6

    found: list[tuple[int, int]] = []
    rights = [right if right > 6 else right - 1 for right in range(side - 1, 0, -2)]
    for number, right in enumerate(rights):
        rows = range(side) if number % 2 else range(side - 1, -1, -1)
        found += [(r, c) for r in rows for c in (right, right - 1) if not kept(r, c)]
    return found


def _blocks(words: list[int], sizes: list[tuple[int, int]]) -> list[tuple[list[int], int]]:
    """Words dealt to their blocks in turn, data first; the check words of each must agree."""
    blocks: list[list[int]] = [[] for _ in sizes]
    at = iter(words)
    for n in range(max(many for _, many in sizes)):
        for block, (_, many) in zip(blocks, sizes, strict=True):
            if n < many:
                block.append(next(at))
    checks = sizes[0][0] - sizes[0][1]
    for _ in range(checks):
        for block in blocks:
            block.append(next(at))
    for block in blocks:
        assert all(_value(block, power) == 0 for power in range(checks)), "check words"
    return [(block, many) for block, (_, many) in zip(blocks, sizes, strict=True)]


def _value(block: list[int], power: int) -> int:
    """The block as a polynomial at a power of 2, over 256 numbers (x^8 + x^4 + x^3 + x^2 + 1)."""
    at = 1
    for _ in range(power):
        at = _times(at, 2)
    total = 0
    for word in block:
        total = _times(total, at) ^ word
    return total


def _times(a: int, b: int) -> int:
    product_ = 0
    while b:
        product_ ^= a if b & 1 else 0
        a = a << 1 ^ (0x11D if a & 0x80 else 0)
        b >>= 1
    return product_
