"""The hash is scrypt as RFC 7914 gives it, and the words are kept nowhere."""

from filmrack.store import passphrase
from filmrack.store.passphrase import Cost, hashed
from tests.conftest import School

CHEAP = Cost(n=16)


def test_the_hash_is_that_of_rfc_7914_section_12() -> None:
    known = (
        "fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b373162"
        "2eaf30d92e22a3886ff109279d9830dac727afb94a83ee6d8360cbdfa2cc0640"
    )
    assert hashed("password", b"NaCl", Cost(n=1024, r=8, p=16)).hex() == known


def test_a_room_without_a_passphrase_fits_nothing(school: School) -> None:
    assert not passphrase.is_set(school.file.conn)
    assert not passphrase.fits(school.file.conn, "")


def test_the_words_are_not_in_the_file_and_the_salt_is_new_each_time(school: School) -> None:
    kept = []
    for _ in range(2):
        with school.file.writing() as conn:
            passphrase.keep(conn, "three dry clips", CHEAP)
        assert passphrase.fits(school.file.conn, "three dry clips")
        assert not passphrase.fits(school.file.conn, "three dry clip")
        kept.append(school.dump())
    assert "three dry" not in kept[0]
    assert kept[0] != kept[1]


def test_one_letter_written_in_two_ways_is_one_letter(school: School) -> None:
    with school.file.writing() as conn:
        passphrase.keep(conn, "Entwickler\u00fcber", CHEAP)
    assert passphrase.fits(school.file.conn, "Entwickleru\u0308ber")
