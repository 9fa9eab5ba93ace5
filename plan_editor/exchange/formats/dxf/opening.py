"""The bytes of a drawing as a document: whole, or what can be saved of a damaged one."""

import tempfile
from dataclasses import dataclass
from pathlib import Path

from ezdxf import recover
from ezdxf.document import Drawing as Document
from ezdxf.filemanagement import readfile
from ezdxf.lldxf.const import DXFError
from ezdxf.lldxf.validator import is_binary_dxf_file

from plan_editor.errors import CannotRead

BROKEN = (
    DXFError,
    ArithmeticError,
    AssertionError,
    AttributeError,
    LookupError,
    OSError,
    RuntimeError,
    TypeError,
    ValueError,
)
"""What reading raises where a file is damaged: ezdxf trusts what it has loaded, and trips over
it where it is first used."""

_EMPTY = "The file is empty. Nothing was changed. Ask its maker to send it again."
_OTHER = (
    "The file is not a DXF drawing. Nothing was changed. Ask its maker to save the drawing as "
    "DXF; giving the file another name does not change what is in it."
)
_LOST = (
    "The drawing is damaged or incomplete, and nothing in it could be used. Nothing was "
    "changed. Ask its maker to send it again."
)
_LONGEST_CODE = 4  # digits of a group code


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A drawing that could be opened, and whether only by leaving out what is damaged."""

    document: Document
    damaged: bool


def opened(content: bytes) -> Opened:
    """Return the drawing.

    Raises:
        CannotRead: it is none, or nothing of it is left.
    """
    if not content.strip(b"\0\t\n\r "):
        raise CannotRead(_EMPTY)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "drawing.dxf"
        path.write_bytes(content)
        if not is_binary_dxf_file(str(path)) and not _begins_with_a_code(content):
            raise CannotRead(_OTHER)
        try:
            return Opened(document=readfile(path), damaged=False)
        except BROKEN:
            return _recovered(path)


def _recovered(path: Path) -> Opened:
    try:
        document, _ = recover.readfile(path)
    except BROKEN as error:
        raise CannotRead(_LOST) from error
    if not len(document.modelspace()):
        raise CannotRead(_LOST)
    return Opened(document=document, damaged=True)


def _begins_with_a_code(content: bytes) -> bool:
    start = content.removeprefix(b"\xef\xbb\xbf")[:4000]
    first = start.split(b"\n", 1)[0].strip()
    return b"\0" not in start and first.isdigit() and len(first) <= _LONGEST_CODE
