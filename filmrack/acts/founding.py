"""Making the darkroom file of a room."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.domain.room import Room
from filmrack.domain.roomfile import refuse_problems
from filmrack.store import settings
from filmrack.store.beside import all_beside, draft_of, remove
from filmrack.store.file import DarkroomFile, create_file, open_file
from filmrack.store.room import bump_stamp, keep_room_file
from filmrack.store.room_writing import write_room
from filmrack.store.times import to_text
from filmrack.store.trouble import refuse_over


def make_darkroom_file(
    path: Path, room: Room, now: datetime, text: str | None = None
) -> DarkroomFile:
    """Make the darkroom file of a room, whole or not at all, and open it.

    `text` is the room file it comes from, whose comments are kept. Raises Refused for a room that
    does not hold together and over anything that exists, FileTrouble when the file cannot be
    written.
    """
    refuse_problems(room)
    with made_whole(path) as draft, create_file(draft) as file, file.writing() as conn:
        write_room(conn, room)
        settings.write(conn, "founded", to_text(now))
        if text is not None:
            keep_room_file(conn, text)
        bump_stamp(conn)
    return open_file(path, write=True)


@contextmanager
def made_whole(path: Path) -> Iterator[Path]:
    """Give another name under which a file is made, and put it in place when that went well.

    Not even a power cut leaves half a file in place, and of two who make it at once the second is
    refused. Raises Refused over anything that exists, FileTrouble when it cannot be written.
    """
    _refuse_over_anything(path)
    draft = draft_of(path)
    try:
        yield draft
        _put_in_place(draft, path)
    except FileTrouble as error:
        raise FileTrouble(str(error).replace(str(draft), str(path))) from error
    finally:
        remove(draft)


def _refuse_over_anything(path: Path) -> None:
    refuse_over(path)
    for journal in all_beside(path):
        if os.path.lexists(journal):
            raise Refused(
                f"{journal} belongs to a darkroom file that is gone from there and would spoil a"
                " new one: name another file, or move it away first"
            )


def _put_in_place(draft: Path, path: Path) -> None:
    try:
        try:
            os.link(draft, path)
        except FileExistsError:
            raise
        except OSError:  # a disk without links
            _refuse_over_anything(path)
            draft.rename(path)
    except FileExistsError:
        _refuse_over_anything(path)
    except OSError as error:
        raise FileTrouble(f"{path} cannot be written: {error.strerror or error}") from error
