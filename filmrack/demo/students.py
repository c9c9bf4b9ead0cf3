"""The students of the demo school: invented, of many origins, in the classes of three terms."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from random import Random

from filmrack.demo.school import BLOCKS

_ORIGINS = """
Adaeze Emeka Ifunanya Tobenna Somto Kelechi Nneka Obinna Chiamaka Uzoma
| Okafor Nwabugwu Eberechi Anyawu Ikwueme Obiora Madueke Uchendu Onwudiwe Ezenwa
Ingeborg Torvald Sunniva Eirik Tuva Håkon Åshild Bjørn Solveig Øystein
| Solheim Fjeldstad Nygård Bråten Lillevik Ødegård Haugen Strømsnes Rønning Kvåle
Zofia Bartosz Łucja Kacper Wiktoria Stanisław Małgorzata Jędrzej Bogna Ignacy
| Wiśnicka Dąbek Żurawska Król-Nowicki Gawrońska Śliwa Pawlik Łęcki Zawadzka Brzoza
Itzel Joaquín Ximena Emiliano Luz Matías Renata Íñigo Paloma Ulises
| Quiñones Villaseñor Arreola Peñaloza Ibarrola Zúñiga Cebreros Montaño Escamilla Tlapale
Linh Quân Mai Đức Thảo Khôi Ngân Trí Hạnh Vinh
| Đặng Huỳnh Phùng Lương Trịnh Vương Đoàn Tạ Lưu Châu
Anjali Rohan Meenakshi Arjun Kavya Devansh Ishita Pranav Lakshmi Omkar
| Bhatnagar Sahasrabhojane Kulkarni Iyengar Chaudhari Raghunathan Mukhopadhyay Joshi Pillai Saraf
Yasmin Karim Noor Tariq Salma Idris Hanan Zayd Rima Bilal
| Haddad Al-Masri Benyahia Qureshi Khoury El-Tayeb Barakat Mansouri Nassar Siddiqui
Haruka Kenji Aoi Sōta Mei Ryō Chihiro Itsuki Yuna Kaito
| Hoshino Kuramoto Tachibana Ōnishi Mizushima Sakaguchi Fukuhara Tsukada Arakawa Nomura
Hana Seo-jun Jiwoo Min-ho Soo-ah Tae-yang Eunbi Hyun-woo Dasom Jae
| Namgung Hwangbo Seonu Jegal Baek Gwak Noh Eom Tak Bong
Odile Mathéo Maëlle Théophile Aurore Benoît Noémie Zacharie Capucine Gaël
| Beaurivage Lefrançois Desrosiers Charpentier Gagnon-Roy L'Écuyer Thibodeau Quesnel D'Amours Hébert
Aroha Wiremu Mereana Tāne Hinewai Rangi Kahurangi Manaia Whetū Tama
| Ngatai Te-Kanawa Parata Rāwiri Hōhepa Waititi-Moana Tūhoe Kereama Pōmare Matenga
Wren Jasper Clementine Barnaby Hazel Rufus Marigold Silas Juniper Alden
| Winterbourne Ashdown Thistlewood Pemberley Larkspur Hollowell Fairweather Cobble Marsh Underhill
Lale Emre Gülşah Çağrı Defne Oğuz İpek Yiğit Şule Kaan
| Yıldızoğlu Karadağ Çelikkol Öztopçu Güneşer Akşit Ünalmış Şahinbaş Ergüder Taşkıran
Keahi Leilani Makana Nalani Kaimana Mahina Alika Pualani Kekoa Noelani
| Kahananui Kealoha Palakiko Ka‘ahumanu Nakamura-Kai Keawe Mahoe Pukui Lono Kanahele
"""
_KEPT_AS_WRITTEN = (
    # Two twins, two namesakes, one very long name, and names in the letters they are written in.
    ("Amara", "Nwabugwu-Bell", ""),
    ("Amari", "Nwabugwu-Bell", ""),
    ("Noah", "Winterbourne", "Red"),
    ("Noah", "Winterbourne", "Blue"),
    ("María Antonia Guadalupe", "de los Ángeles Villanueva y Etxeberria", "Toni"),
    ("雨桐", "欧阳", ""),
    ("Дарья", "Ветрогорская", ""),
    ("Γαλάτεια", "Ρουσσέα", ""),
    ("ليلى", "القمري", ""),
    ("मीरा", "भटनेरकर", ""),
    ("하늘", "남궁", ""),
    ("さくら", "小鳥遊", ""),
)
_SAME_BLOCK = 4
"""The first so many of them sit in one block, where they have to be told apart."""
_GO_BY = {"Clementine": "Clem", "Théophile": "Théo", "Stanisław": "Staś", "Barnaby": "Barney"}

_FIRST_YEAR, _JOIN_IN_SPRING, _STAY_ON = 96, 10, 62


@dataclass(frozen=True, slots=True)
class Student:
    """One line of a roster."""

    school_id: str
    given: str
    family: str
    called: str


@dataclass(frozen=True, slots=True)
class ClassList:
    """Who is in which block in one term: school ids by the block's name."""

    term: str
    blocks: dict[str, list[Student]]

    def roster(self) -> bytes:
        """Return the roster as the school's office writes it."""
        text = io.StringIO(newline="")
        writer = csv.writer(text)
        writer.writerow(("Family", "Given", "Called", "ID", "Block"))
        for block, students in self.blocks.items():
            for one in students:
                writer.writerow((one.family, one.given, one.called, one.school_id, block))
        return text.getvalue().encode()


def class_lists(chance: Random) -> tuple[ClassList, ...]:
    """Return the classes of three terms: some join in spring, some stay on in the next year."""
    everyone = _everyone(chance)
    first, others = everyone[:_FIRST_YEAR], everyone[_FIRST_YEAR:]
    spring = [*first, *others[:_JOIN_IN_SPRING]]
    autumn = [*spring[:_STAY_ON], *others[_JOIN_IN_SPRING:]]
    in_first_year = _dealt(spring)
    return (
        ClassList("25F", {block: _only(first, some) for block, some in in_first_year.items()}),
        ClassList("26S", in_first_year),
        ClassList("26F", _dealt(autumn)),
    )


def _everyone(chance: Random) -> list[Student]:
    """Return everyone who is at the school at some time, in a mixed order."""
    names = [*_KEPT_AS_WRITTEN[_SAME_BLOCK:], *_of_all_origins()]
    chance.shuffle(names)
    names = [*_KEPT_AS_WRITTEN[:_SAME_BLOCK], *names]
    return [Student(f"LM{4100 + 7 * nth}", *name) for nth, name in enumerate(names)]


def _of_all_origins() -> Iterator[tuple[str, str, str]]:
    for origin in _ORIGINS.strip().replace("\n|", "|").splitlines():
        given, family = (names.split() for names in origin.split("|"))
        for one, other in zip(given, family, strict=True):
            yield one, other, _GO_BY.get(one, "")


def _dealt(some: list[Student]) -> dict[str, list[Student]]:
    """Deal students out to the blocks; who has to be told apart sits together in the first."""
    blocks: dict[str, list[Student]] = {name: [] for name in BLOCKS}
    blocks["A"] = some[:_SAME_BLOCK]
    for one in some[_SAME_BLOCK:]:
        min(blocks.values(), key=len).append(one)
    return blocks


def _only(some: list[Student], of_these: list[Student]) -> list[Student]:
    return [one for one in of_these if one in some]
