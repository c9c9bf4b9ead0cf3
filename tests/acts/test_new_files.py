from __future__ import annotations

import errno
from pathlib import Path

import pytest

from filmrack.acts.new_files import free_name, write_new
from filmrack.domain.refusal import Refused


def test_nothing_is_written_over_a_file_or_through_a_link(tmp_path: Path) -> None:
    (tmp_path / "mine").write_bytes(b"mine")
    (tmp_path / "link").symlink_to(tmp_path / "elsewhere")
    for taken in ("mine", "link"):
        with pytest.raises(Refused, match=f"{taken} exists already"):
            write_new(tmp_path / taken, b"other")
    assert (tmp_path / "mine").read_bytes() == b"mine"
    assert not (tmp_path / "elsewhere").exists()


def test_a_file_that_cannot_be_written_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="cannot be written"):
        write_new(tmp_path / "no folder" / "index.txt", b"")


def test_a_full_disk_leaves_no_part_of_a_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened = Path.open

    def out_of_space(_: bytes) -> int:
        raise OSError(errno.ENOSPC, "No space left on device")

    def full(path: Path, mode: str) -> object:
        file = opened(path, mode)
        monkeypatch.setattr(file, "write", out_of_space, raising=False)
        return file

    monkeypatch.setattr(Path, "open", full)
    with pytest.raises(Refused, match="No space left"):
        write_new(tmp_path / "index.txt", b"many words")
    assert not (tmp_path / "index.txt").exists()


def test_the_first_free_name_is_taken(tmp_path: Path) -> None:
    assert free_name(tmp_path, "clips") == tmp_path / "clips.pdf"
    (tmp_path / "clips.pdf").touch()
    (tmp_path / "clips-2.pdf").symlink_to(tmp_path / "gone")
    assert free_name(tmp_path, "clips") == tmp_path / "clips-3.pdf"
