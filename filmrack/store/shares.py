"""Whether a file lies on a network share, where SQLite's locks and shared memory are not sure.

Each system tells it in its own way: Linux in a table of what is mounted, Windows by the name and
the kind of a drive, macOS and other relatives of BSD in what `mount` prints.
"""

from __future__ import annotations

import os
import re
import sys
import unicodedata
from collections.abc import Callable
from contextlib import suppress
from functools import cache
from pathlib import Path

# What the systems call the kinds (filesystems(5) and mount(8) of each); from memory.
_SHARES = frozenset(
    {"nfs", "nfs4", "cifs", "smb3", "smbfs", "9p", "afs", "afpfs", "ceph", "glusterfs", "webdav"}
    | {"davfs", "fuse.sshfs", "fuse.davfs2", "fuse.rclone", "fuse.glusterfs", "fuse.gvfsd-fuse"}
    | {"fuse.kio-fuse", "virtiofs", "vboxsf", "ncpfs", "lustre", "beegfs"}
)
_FROM_ELSEWHERE = re.compile(r"[a-z][a-z0-9+.]*://|[^/\s]+@[^/\s]+:")
"""A source that names another machine: an address, or a person at a machine."""

MOUNTS = Path("/proc/self/mounts")
_MOUNT = "/sbin/mount"
_REMOTE = 4
"""What GetDriveTypeW calls a network drive: DRIVE_REMOTE in Windows' fileapi.h; from memory."""


def network_share(path: Path) -> str | None:
    """Return a warning where a file lies on a network share, as far as the system says so.

    None where it lies on a disk of this machine, and where nothing is known.
    """
    place = os.path.realpath(path)
    if sys.platform == "win32":
        kind = windows_share(place, _drive_type)
    elif sys.platform == "linux":
        kind = linux_share(place, _table(MOUNTS))
    else:
        kind = bsd_share(place, _listed())
    if kind is None:
        return None
    return (
        f"{path} lies on a network share ({kind}), where a file used from two machines can be"
        " damaged: keep it on a disk of one machine, and reach that from others by SSH"
    )


def linux_share(place: str, table: str) -> str | None:
    """Return the kind of share that a place lies on by Linux's table of mounts, see fstab(5).

    A line is source, folder, kind and more, with blanks inside each as `\\040`.

    >>> linux_share("/srv/film/room.db", "nas:/film /srv/film nfs4 rw 0 0")
    'nfs4'
    """
    mounts = (line.split(" ") for line in table.splitlines())
    known = (fields for fields in mounts if len(fields) > 2)
    return _share(
        [(_unescaped(source), _unescaped(at), kind) for source, at, kind, *_ in known], place
    )


def bsd_share(place: str, listed: str) -> str | None:
    """Return the kind of share that a place lies on by what macOS's `mount` prints.

    Capitals do not matter there, nor how an accent is put together.

    >>> bsd_share("/Volumes/film/room.db", "//nas/film on /Volumes/film (smbfs, nodev)")
    'smbfs'
    """
    found = re.finditer(r"^(.*) on (/.*) \(([\w.-]+)[,)]", _folded(listed), re.MULTILINE)
    return _share([(each[1], each[2], each[3]) for each in found], _folded(place))


def windows_share(place: str, drive_type: Callable[[str], int]) -> str | None:
    r"""Return what a place of Windows lies on, if that is a share: `\\server\share` or a drive.

    `drive_type` is GetDriveTypeW, which takes the root of a drive, as `Z:\`.

    >>> windows_share(r"\\nas\film\room.db", lambda root: 3)
    'a folder of another machine'
    >>> windows_share(r"Z:\room.db", lambda root: 4)
    'the network drive Z:'
    """
    plain = re.sub(r"^\\\\\?\\(?=[A-Za-z]:)", "", place)  # what lifts the limit of a path's length
    if plain.startswith("\\\\"):
        return "a folder of another machine"
    drive = re.match(r"[A-Za-z]:", plain)
    if drive is None or drive_type(f"{drive[0]}\\") != _REMOTE:
        return None
    return f"the network drive {drive[0].upper()}"


def _share(mounts: list[tuple[str, str, str]], place: str) -> str | None:
    """Return the kind of the mount that a place lies in, if it is a share."""
    longest, found = "", None
    for source, at, kind in mounts:
        inside = place == at or place.startswith(at.rstrip("/") + "/")
        # What was mounted later over the same place hides what was there.
        if inside and len(at) >= len(longest):
            carried = "fuse" in kind and _FROM_ELSEWHERE.match(source)
            longest, found = at, kind if kind in _SHARES or carried else None
    return found


def _unescaped(field: str) -> str:
    return re.sub(r"\\([0-7]{3})", lambda found: chr(int(found[1], 8)), field)


def _folded(text: str) -> str:
    return unicodedata.normalize("NFC", text).casefold()


def _table(mounts: Path) -> str:
    with suppress(OSError):
        return mounts.read_text(encoding="utf-8", errors="surrogateescape")
    return ""


@cache
def _listed() -> str:
    """Ask once: the volume of an open file stays, and a screen that is drawn asks each second."""
    import subprocess

    with suppress(OSError, subprocess.SubprocessError):
        done = subprocess.run([_MOUNT], capture_output=True, check=False, timeout=5)
        return done.stdout.decode("utf-8", "surrogateescape")
    return ""


def _drive_type(root: str) -> int:
    import ctypes

    if sys.platform == "win32":
        return int(ctypes.windll.kernel32.GetDriveTypeW(root))
    return 0  # unknown
