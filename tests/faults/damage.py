"""Ways in which a darkroom file comes to harm, done to copies."""

from __future__ import annotations

import random
import shutil
from pathlib import Path


def spoil(path: Path, chance: random.Random) -> None:
    """Damage a file as disks and people do: bytes, blocks, an end cut off, zeros, another file."""
    data = bytearray(path.read_bytes())
    match chance.randint(0, 5):
        case 0:
            for _ in range(chance.randint(1, 40)):
                data[chance.randrange(len(data))] = chance.randrange(256)
        case 1:
            start = chance.randrange(len(data))
            data[start : start + chance.randint(1, 9000)] = b""
        case 2:
            start = chance.randrange(len(data))
            size = min(chance.randint(1, 20000), len(data) - start)
            data[start : start + size] = bytes(size)
        case 3:
            start = chance.randrange(len(data))
            size = min(chance.randint(1, 9000), len(data) - start)
            data[start : start + size] = chance.randbytes(size)
        case 4:
            del data[chance.randrange(len(data)) :]
        case _:
            where = chance.randrange(100)
            data[where] = chance.randrange(256)
    path.write_bytes(data)


def cut_copy(path: Path, target: Path, cut: float) -> None:
    """Copy a file and its journal as a power cut leaves them, the journal cut at a share of it."""
    shutil.copy(path, target)
    journal = path.with_name(path.name + "-wal").read_bytes()
    target.with_name(target.name + "-wal").write_bytes(journal[: int(len(journal) * cut)])
