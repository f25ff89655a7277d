"""Pictures in a served shop: logged as a tablet logs them, sent as a tablet sends them, judged."""

import json
from hashlib import sha256

from server.facts.moment import show_moment
from server.record.book_of_lines import Record, now_ms
from server.work.judging import judge_frames
from tests.pages.bench.bench_shop import FRAME, WELDER
from tests.pages.bench.fixtures import Visit


def named(content: bytes) -> str:
    """What an entry names a picture by."""
    return sha256(content).hexdigest()


def log(visit: Visit, seq: int, **fields: object) -> str:
    """Send one entry of a tablet; gives its id."""
    at, name = show_moment(now_ms() - 60_000 + seq * 1000), f"TAB-P:b:{seq}"
    head = {"id": name, "device": "TAB-P", "boot": "b", "seq": seq, "mono_ms": seq * 1000, "device_time": at}
    where = {} if "of" in fields else {"frame": FRAME}
    told = head | {"happened": at, "who": WELDER} | where | fields
    line = json.dumps(told, sort_keys=True, separators=(",", ":"))
    sent = {"id": f"{name}/1", "device": "TAB-P", "sent_at": show_moment(now_ms()), "line": line}
    answer = visit.ask("POST", "/api/deliveries", json={"deliveries": [sent]}).json()
    assert answer["receipts"][0]["taken"] in ("taken", "taken before"), answer
    return name


def log_pass(visit: Visit, seq: int, joint: str) -> str:
    """A root run on a joint, so that its page has something to show."""
    return log(visit, seq, kind="pass", joint=joint, run="root", torch_line="B1-T")


def log_photo(visit: Visit, seq: int, joint: str, content: bytes, **more: object) -> str:
    """The entry that names a picture; its bytes are another matter."""
    shown = {"side": "outside", "zone": "bead", "moment": "as welded"} | more
    return log(visit, seq, kind="photo", joint=joint, sha256=named(content), **shown)


def send_photo(visit: Visit, content: bytes) -> None:
    """The bytes of a picture."""
    answer = visit.ask("POST", "/api/photos", params={"frame": FRAME}, content=content)
    assert answer.status_code == 200, answer.text


def judge(record: Record) -> None:
    """Judge the frame as it is known now."""
    judge_frames(record, [FRAME])
