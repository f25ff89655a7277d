"""Who may come in, on which devices, and what was done to that, as the owner's lists; never a secret."""

from server.documents.list_csv import Column
from server.facts.moment import show_moment
from server.pages.lists.a_list import AList, Rows, moments, texts
from server.record.reads import Reads


def _people(reads: Reads) -> Rows:
    return [
        [each.id, each.name, "; ".join(each.roles), each.left.isoformat() if each.left else None]
        for each in sorted(reads.registers().people.values(), key=lambda each: each.id)
    ]


def _tablets(reads: Reads) -> Rows:
    devices = reads.devices()
    heard = reads.last_heard([each.id for each in devices])
    return [
        [each.id, each.title, each.bench, show_moment(each.enrolled_ms),
         show_moment(each.revoked_ms) if each.revoked_ms else None,
         show_moment(heard[each.id]) if each.id in heard else None]
        for each in devices
    ]  # fmt: skip


def _door(reads: Reads) -> Rows:
    return [
        [show_moment(each.at), each.act, each.person, each.tablet, each.by, each.role, each.on, each.words]
        for each in sorted(reads.registers().door_changes.values(), key=lambda each: each.at)
    ]


DOOR_LISTS: dict[str, AList] = {
    "people": AList("The people of the shop", (
        *texts(person="the number", name="the name", roles="held, parted by semicolons"),
        Column("left", "date", "the day they left; empty while here"),
    ), _people, ("owner",)),
    "tablets": AList("Enrolled and revoked tablets", (
        *texts(tablet="its name", title="what it is called", bench="where it stands"),
        *moments(enrolled="when", revoked="when; empty while it is known", heard="when the last entry came"),
    ), _tablets, ("owner",)),
    "door": AList("What was done to who may come in", (
        *moments(at="when"),
        *texts(act="what", person="whom it is about", tablet="which device it is about", by="empty: by a command",
               role="in which they acted", on="on which device", words="what was said with it"),
    ), _door, ("owner",)),
}  # fmt: skip
