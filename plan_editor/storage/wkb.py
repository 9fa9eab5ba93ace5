"""Well-known binary from strangers: what the geometry library may be given.

The library reads parts within parts by calling itself: a file with a hundred thousand shells
round one point kills the program. A plan needs points, lines, areas and several of one of
these, so nothing else gets through. Source of the layout: OGC 06-103r4 (Simple Features), 8.2.
"""

import struct

_FLAT = frozenset(struct.pack("<BI", 1, form) for form in (1, 2, 3))
"""How point, line and area begin, as this program writes them."""

_POINT, _LINE, _AREA = 1, 2, 3
_PARTS = {4: _POINT, 5: _LINE, 6: _AREA}
_Z, _M, _SRID = 0x80000000, 0x40000000, 0x20000000


def is_plain(wkb: bytes) -> bool:
    """Return whether it is a point, line, area, or several of one of these, and all there."""
    if wkb[:5] in _FLAT:
        return True
    try:
        return _end(wkb, 0, within=None) <= len(wkb)
    except (ValueError, struct.error, IndexError):
        return False


def _end(wkb: bytes, at: int, within: int | None) -> int:
    """Return where a shape ends.

    Raises:
        ValueError, struct.error, IndexError: it is of another sort, or cut off.
    """
    order = "<" if wkb[at] == 1 else ">"
    form, size = _form(*struct.unpack_from(f"{order}I", wkb, at + 1))
    at += 5
    if within is not None and form != within:
        raise ValueError(form)
    if form == _POINT:
        return at + size
    count: int = struct.unpack_from(f"{order}I", wkb, at)[0]
    at += 4
    if form == _LINE:
        return at + count * size
    if form == _AREA:
        for _ in range(count):
            (corners,) = struct.unpack_from(f"{order}I", wkb, at)
            at += 4 + corners * size
        return at
    part = _PARTS[form] if form in _PARTS and within is None else None
    if part is None:
        raise ValueError(form)
    for _ in range(count):
        at = _end(wkb, at, part)
    return at


def _form(code: int) -> tuple[int, int]:
    """Return the sort of shape, and the bytes of one corner."""
    if code & _SRID:
        raise ValueError(code)
    extra = bool(code & _Z) + bool(code & _M)
    high, form = divmod(code & ~(_Z | _M), 1000)
    return form, 8 * (2 + extra + (0, 1, 1, 2)[high])
