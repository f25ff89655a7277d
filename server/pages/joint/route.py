"""A joint's address: one seam of one frame, as known now or at an earlier record position."""

from typing import NamedTuple

from fastapi import APIRouter, Depends, Request
from fastapi.responses import Response

from server.charts.strip import Dot, Strip, lay_strip
from server.facts.design import Design
from server.facts.legal_hold import LegalHold
from server.pages.frame.access import needs
from server.pages.frame.known_at import Position
from server.pages.frame.rendering import show
from server.pages.history.page import states
from server.pages.joint.page import JointPage
from server.pages.joint.recordings import Recording, recordings_of
from server.plan.picture import side_view
from server.work.frame_history import FrameStory, JointStory, frame_history
from server.work.frame_passes import frame_passes
from server.work.frame_photos import ShownPhoto, frame_photos
from server.work.legal_hold import standing_hold
from server.work.refusal import NotThere
from server.work.sister_joints import Compared, sister_joints

router = APIRouter(include_in_schema=False)


@router.get("/history/{serial}/{joint}", dependencies=[Depends(needs())])
def one_joint(request: Request, serial: str, joint: str, known_at: Position = None) -> Response:
    """Show one joint with everything the record holds of it."""
    with request.app.state.record.reads() as reads:
        story = frame_history(reads, serial, known_at)
        design, found = _joint_of(story, joint)
        compared = sister_joints(reads, serial, joint)
        photos = tuple(each for each in frame_photos(reads, story) if each.joint == joint)
        passes = frame_passes(reads, serial)
        hold = standing_hold(reads.registers(), serial)
    shown = _Shown(photos, recordings_of(request.app.state.files, passes, joint), hold)
    return show(request, "joint/joint.html", _page(story, design, found, compared, shown))


class _Shown(NamedTuple):
    photos: tuple[ShownPhoto, ...]
    recordings: tuple[Recording, ...]
    hold: LegalHold | None


def _joint_of(story: FrameStory, joint: str) -> tuple[Design, JointStory]:
    found = next((each for each in story.joints if each.joint.id == joint), None)
    if found is None or story.design is None:
        raise NotThere(f"{joint!r} is no joint of {story.packet.frame}; its joints are on the frame picture")
    return story.design, found


def _page(story: FrameStory, design: Design, found: JointStory, compared: list[Compared], shown: _Shown) -> JointPage:
    here = found.joint
    return JointPage(
        story=story,
        joint=found,
        picture=side_view(design, story.packet.size),
        state_of=states(story),
        neighbours=tuple(each for each in design.joints if each.id != here.id and set(each.parts) & set(here.parts)),
        hides=tuple(each for each in design.covers if each.by == here.id),
        hidden_by=tuple(each for each in design.covers if each.seam == here.id),
        strips=tuple(_strip(each) for each in compared if each.frames > 1 and each.differs),
        recordings=shown.recordings,
        photos=shown.photos,
        hold=shown.hold,
    )


def _strip(compared: Compared) -> Strip:
    others = [Dot(each.value, f"{each.frame}: {each.value:g}", f"/history/{each.frame}") for each in compared.elsewhere]
    own = [Dot(each.value, f"this joint, attempt {each.attempt}: {each.value:g}") for each in compared.here]
    return lay_strip(compared.words, others, own, compared.frames)
