"""Whether a file lies on a network share, where SQLite's locks and shared memory are not sure."""

from __future__ import annotations

import os
import re
import sys
from contextlib import suppress
from pathlib import Path

# The names that Linux gives the kinds (filesystems(5) and mount(8)); from memory.
_SHARES = frozenset(
    {
        "nfs",
        "nfs4",
        "cifs",
        "smb3",
        "smbfs",
        "9p",
        "afs",
        "ceph",
        "glusterfs",
        "fuse.sshfs",
        "davfs",
    }
    | {"fuse.davfs2", "fuse.rclone", "fuse.glusterfs", "virtiofs", "ncpfs", "lustre", "beegfs"}
)
MOUNTS = Path("/proc/self/mounts")


def network_share(path: Path, mounts: Path = MOUNTS) -> str | None:
    """Return a warning where a file lies on a network share, as far as the system says so.

    Linux tells it of every folder, Windows by the name of the share; None where nothing is known.
    """
    place = os.path.realpath(path)
    if sys.platform == "win32" and place.startswith("\\\\"):
        return _warning(path, "a share of another machine")
    kind = _kind(place, mounts)
    return _warning(path, kind) if kind in _SHARES else None


def _kind(place: str, mounts: Path) -> str:
    longest, kind = "", ""
    with suppress(OSError):
        for line in mounts.read_text(encoding="utf-8", errors="surrogateescape").splitlines():
            _, where, its_kind, *_ = [*line.split(" "), "", "", ""]
            where = re.sub(r"\\([0-7]{3})", lambda found: chr(int(found[1], 8)), where)
            inside = place == where or place.startswith(where.rstrip("/") + "/")
            # What was mounted later over the same place hides what was there.
            if inside and len(where) >= len(longest):
                longest, kind = where, its_kind
    return kind


def _warning(path: Path, kind: str) -> str:
    return (
        f"{path} lies on a network share ({kind}), where a file used from two machines can be"
        " damaged: keep it on a disk of one machine, and reach that from others by SSH"
    )
