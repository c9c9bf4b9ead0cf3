"""What the disk says of a file comes to a person with what to do about it."""

from __future__ import annotations

import errno
import os

import pytest

from filmrack.domain.refusal import FileTrouble
from filmrack.store.trouble import trouble_with

FULL = "the disk with darkroom.db is full: make room and try again; nothing was changed"


@pytest.mark.parametrize(
    ("number", "told"),
    [
        (errno.ENOSPC, FULL),
        (errno.EDQUOT, FULL),
        (
            errno.EACCES,
            "darkroom.db cannot be used (Permission denied): allow reading and writing it and its"
            " folder",
        ),
        (
            errno.EROFS,
            "darkroom.db cannot be used (Read-only file system): allow reading and writing it and"
            " its folder",
        ),
        (
            errno.EIO,
            "darkroom.db cannot be used (Input/output error): check that its folder is there and"
            " its disk whole",
        ),
    ],
)
def test_a_disk_that_refuses_is_told_with_what_to_do(number: int, told: str):
    with pytest.raises(FileTrouble) as trouble, trouble_with("darkroom.db"):
        raise OSError(number, os.strerror(number))
    assert str(trouble.value) == told
