"""A file on a network share is told of, on each system as far as that says so."""

from __future__ import annotations

import ctypes
import os
import shutil
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest

from filmrack.cli.app import run
from filmrack.store import shares
from filmrack.store.shares import bsd_share, linux_share, network_share, windows_share
from tests.desk.at_desk import at_desk

# As in proc(5) and fstab(5): source, folder, kind, options, two numbers; blanks as \040.
LINUX = r"""
proc /proc proc rw,relatime 0 0
/dev/sda2 / ext4 rw,relatime 0 0
/dev/sdb1 /media/stick fuseblk rw,user_id=0 0 0
nas:/export/film /mnt/nfs nfs4 rw,vers=4.2,addr=10.0.0.2 0 0
nas:/old /mnt/old nfs rw,vers=3 0 0
//nas/film /mnt/cifs cifs rw,username=teacher 0 0
//nas/film /mnt/smb3 smb3 rw 0 0
teacher@nas:/srv /mnt/ssh fuse.sshfs rw,nosuid 0 0
teacher@nas:/srv /mnt/plain\040fuse fuse rw,nosuid 0 0
https://nas.example/dav /mnt/dav fuse rw,nosuid 0 0
gvfsd-fuse /run/user/1000/gvfs fuse.gvfsd-fuse rw 0 0
hostshare /mnt/host 9p rw,trans=virtio 0 0
/mnt/a:/mnt/b /mnt/pool fuse.mergerfs rw 0 0
//nas/two /mnt/two\040words\134here cifs rw 0 0
/dev/sdc1 /mnt/cifs/stick ext4 rw 0 0
nas:/auto /mnt/hidden nfs rw 0 0
/dev/sdd1 /mnt/hidden xfs rw 0 0
//nas/über /mnt/über cifs rw 0 0
torn line
"""


@pytest.mark.parametrize(
    ("place", "kind"),
    [
        ("/mnt/nfs/room.db", "nfs4"),
        ("/mnt/old/term/room.db", "nfs"),
        ("/mnt/cifs/room.db", "cifs"),
        ("/mnt/smb3/room.db", "smb3"),
        ("/mnt/ssh/room.db", "fuse.sshfs"),
        ("/mnt/plain fuse/room.db", "fuse"),
        ("/mnt/dav/room.db", "fuse"),
        ("/run/user/1000/gvfs/smb-share:server=nas,share=film/room.db", "fuse.gvfsd-fuse"),
        ("/mnt/host/room.db", "9p"),
        ("/mnt/two words\\here/room.db", "cifs"),
        ("/mnt/über/room.db", "cifs"),
        ("/mnt/cifs", "cifs"),
        ("/home/teacher/room.db", None),
        ("/media/stick/room.db", None),
        ("/mnt/pool/room.db", None),
        ("/mnt/cifs/stick/room.db", None),
        ("/mnt/hidden/room.db", None),
        ("/mnt/cifs-not/room.db", None),
    ],
)
def test_linux_says_in_its_table_of_mounts_what_a_file_lies_on(place: str, kind: str | None):
    assert linux_share(place, LINUX) == kind


def test_where_no_table_can_be_read_nothing_is_said():
    assert linux_share("/mnt/nfs/room.db", "") is None


@pytest.mark.skipif(shutil.which("findmnt") is None, reason="needs findmnt of util-linux")
@pytest.mark.parametrize("place", ["/", "/proc/self", "/dev/shm", "/sys/fs", "here"])
def test_the_mount_that_counts_is_the_one_findmnt_names(place: str, tmp_path: Path):
    real = os.path.realpath(tmp_path if place == "here" else place)
    words = ["findmnt", "--noheadings", "--first-only", "--output", "TARGET", "--target", real]
    asked = subprocess.run(words, capture_output=True, text=True, check=False)
    target = asked.stdout.strip()
    if not target:
        pytest.skip("findmnt knows no such place here")
    at = [line.split(" ")[1] for line in shares.MOUNTS.read_text(encoding="utf-8").splitlines()]
    remote = "".join(f"x {each} {'nfs' if each == target else 'ext4'} rw 0 0\n" for each in at)
    local = "".join(f"x {each} {'ext4' if each == target else 'nfs'} rw 0 0\n" for each in at)
    assert linux_share(real, remote) == "nfs"
    assert linux_share(real, local) is None


# As mount(8) of macOS prints it, from memory: source, “on”, folder, kind and more in brackets.
MACOS = """\
/dev/disk3s1s1 on / (apfs, sealed, local, read-only, journaled)
devfs on /dev (devfs, local, nobrowse)
/dev/disk3s5 on /System/Volumes/Data (apfs, local, journaled, nobrowse, protect, root data)
map auto_home on /System/Volumes/Data/home (autofs, automounted, nobrowse)
/dev/disk4s1 on /Volumes/Stick (exfat, local, nodev, nosuid, noowners)
//teacher@nas._smb._tcp.local/Film%20Room on /Volumes/Film Room (smbfs, nodev, mounted by teacher)
nas:/export on /Volumes/export (nfs, nodev, nosuid, mounted by teacher)
nas:/bare on /Volumes/bare (nfs)
//teacher@nas/old on /Volumes/old (afpfs, nodev, nosuid, mounted by teacher)
https://nas.example/dav/ on /Volumes/dav (webdav, nodev, noexec, nosuid, mounted by teacher)
teacher@nas:/srv on /Volumes/ssh (macfuse, nodev, nosuid, synchronous, mounted by teacher)
/dev/disk5s1 on /Volumes/ntfs (macfuse, local, nodev, nosuid)
//nas/f on /Volumes/Fotos (1) (smbfs)
//nas/b on /Volumes/Bu\u0308cher (smbfs, nodev)
"""


@pytest.mark.parametrize(
    ("place", "kind"),
    [
        ("/Volumes/Film Room/room.db", "smbfs"),
        ("/volumes/film room/room.db", "smbfs"),
        ("/Volumes/export/room.db", "nfs"),
        ("/Volumes/bare/room.db", "nfs"),
        ("/Volumes/old/room.db", "afpfs"),
        ("/Volumes/dav/room.db", "webdav"),
        ("/Volumes/ssh/room.db", "macfuse"),
        ("/Volumes/Fotos (1)/room.db", "smbfs"),
        ("/Volumes/B\u00fccher/room.db", "smbfs"),
        ("/Volumes/Stick/room.db", None),
        ("/Volumes/ntfs/room.db", None),
        ("/Users/teacher/room.db", None),
    ],
)
def test_macos_says_in_what_mount_prints_what_a_file_lies_on(place: str, kind: str | None):
    assert bsd_share(place, MACOS) == kind


# The kinds of drives are those of GetDriveTypeW, Windows' fileapi.h; from memory.
DRIVES = {"C:\\": 3, "D:\\": 5, "E:\\": 2, "Z:\\": 4, "y:\\": 4}


@pytest.mark.parametrize(
    ("place", "kind"),
    [
        (r"\\nas\film\room.db", "a folder of another machine"),
        (r"\\?\UNC\nas\film\room.db", "a folder of another machine"),
        (r"Z:\room.db", "the network drive Z:"),
        (r"y:\film\room.db", "the network drive Y:"),
        (r"\\?\Z:\room.db", "the network drive Z:"),
        (r"C:\Users\teacher\room.db", None),
        (r"\\?\C:\room.db", None),
        (r"E:\room.db", None),
        (r"X:\room.db", None),
        ("room.db", None),
    ],
)
def test_windows_says_by_name_and_drive_what_a_file_lies_on(place: str, kind: str | None):
    assert windows_share(place, lambda root: DRIVES.get(root, 1)) == kind


@pytest.fixture
def on_windows(monkeypatch: pytest.MonkeyPatch) -> None:
    kernel = SimpleNamespace(GetDriveTypeW=lambda root: DRIVES.get(root, 1))
    monkeypatch.setattr(sys, "platform", "win32")
    monkeypatch.setattr(os.path, "realpath", str)
    monkeypatch.setattr(ctypes, "windll", SimpleNamespace(kernel32=kernel), raising=False)


@pytest.mark.usefixtures("on_windows")
def test_on_windows_a_mapped_drive_is_asked_of_the_system():
    assert "(the network drive Z:)" in str(network_share(Path("Z:\\room.db")))
    assert "(a folder of another machine)" in str(network_share(Path(r"\\nas\film\room.db")))
    assert network_share(Path("C:\\room.db")) is None


@pytest.fixture
def on_a_mac(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """A mount command that prints its list, and counts how often it was asked."""
    command = tmp_path / "mount"
    command.write_text(f"#!/bin/sh\necho x >> {tmp_path}/asked\ncat <<'END'\n{MACOS}END\n")
    command.chmod(0o755)
    monkeypatch.setattr(sys, "platform", "darwin")
    monkeypatch.setattr(shares, "_MOUNT", str(command))
    shares._listed.cache_clear()
    return tmp_path / "asked"


def test_on_a_mac_mount_is_asked_once(on_a_mac: Path):
    for _ in range(3):
        assert "(nfs)" in str(network_share(Path("/Volumes/export/room.db")))
        assert network_share(Path("/Users/teacher/room.db")) is None
    assert on_a_mac.read_text(encoding="utf-8").count("x") == 1
    shares._listed.cache_clear()


def test_on_a_mac_without_mount_nothing_is_said(on_a_mac: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(shares, "_MOUNT", str(on_a_mac.with_name("nothing")))
    assert network_share(Path("/Volumes/export/room.db")) is None
    shares._listed.cache_clear()


@pytest.fixture
def shared(db: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The school's file, of which the system says that it lies on a share."""
    table = tmp_path / "mounts"
    table.write_text(f"/dev/sda1 / ext4 rw 0 0\nnas:/film {db.parent} nfs4 rw 0 0\n")
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setattr(shares, "MOUNTS", table)
    return db


def test_check_and_the_first_act_of_a_day_warn_of_a_share(
    shared: Path, capsys: pytest.CaptureFixture[str]
):
    words = "lies on a network share (nfs4)"
    for line, warned in (
        (["hang", "olu", "--clip", "30"], True),
        (["hang", "olu", "--clip", "31"], False),
        (["check"], True),
    ):
        assert run(["--db", str(shared), *line]) == 0
        assert (words in "".join(capsys.readouterr())) == warned, line


async def test_the_screen_room_warns_of_a_share(shared: Path):
    async with at_desk(shared) as desk:
        await desk.say("room")
        await desk.say("file")
        assert "share (nfs4), where a file used from two machines" in desk.shown
