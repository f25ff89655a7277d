"""A design's text becomes the design."""

import hashlib

import pytest

from tests.plan.cart import CART, cart, refused


def test_what_is_written_once_holds_for_every_size() -> None:
    """A node or length written once is the same in all sizes, one written by size is not."""
    read = cart()
    places = [read.nodes[size] for size in ("S", "L")]
    assert [list(place["mid"]) for place in places] == [[120, 150], [120, 150]]
    assert [list(place["c_l"]) for place in places] == [[300, 200], [300, 300]]
    assert [member.length_mm for member in read.members][1:3] == [{"S": 474, "L": 574}, {"S": 270, "L": 270}]


def test_depth_is_kept_apart_and_left_out_where_there_is_none() -> None:
    """The third number of a node is how far it stands to the right; the middle plane has none."""
    assert cart().depth["S"]["a_l"] == -150
    assert "mid" not in cart().depth["S"]


def test_wall_and_diameter_of_a_joint_are_taken_from_its_parts() -> None:
    """The thinner wall and the tube that lands say what the welder must be qualified for."""
    joints = {joint.id: joint for joint in cart().joints}
    assert (joints["A3"].thickness_mm, joints["A3"].diameter_mm) == (0.9, 20)
    assert (joints["B1"].thickness_mm, joints["B1"].diameter_mm) == (1.5, 20)
    said = cart(('seam_mm = 63, inside = "F"', 'seam_mm = 63, inside = "F", diameter_mm = 24, thickness_mm = 1.1'))
    assert (said.joints[2].thickness_mm, said.joints[2].diameter_mm) == (1.1, 24)


def test_a_volume_left_out_is_computed() -> None:
    """What the shop did not state comes from bores and lengths; what it stated is kept."""
    one, two = cart().setups
    assert one.volume_l == {"S": 0.68, "L": 0.81}
    # By hand: two rails of bore 28 mm, a cross tube of 22.2, a post of 17, a brace of 10.2.
    by_hand = 3.14159265 / 4 * (2 * 28**2 * 474 + 22.2**2 * 270 + 17**2 * 188 + 10.2**2 * 240) / 1e6
    assert two.volume_l["S"] == pytest.approx(by_hand, abs=0.001)


def test_the_digest_is_that_of_the_file() -> None:
    """A design is named by the bytes it was read from."""
    assert cart().sha256 == hashlib.sha256(CART.encode()).hexdigest()


def test_a_cover_that_names_no_quarter_is_refused() -> None:
    """Without its quarter nobody knows what disappears."""
    (found,) = refused((', quarter = "q9"', ""))
    assert (found.line, found.field, found.value) == (24, "covers[1].quarter", "missing")


def test_a_precedence_loop_is_shown_with_its_reasons() -> None:
    """A post that waits for a seam that waits for the post: each link of the ring is said with why."""
    loop = '{ step = "A2:welded", first = ["A3:finished"], reason = "the post keeps the rails apart" },\n]\nholes'
    (found,) = refused(("]\nholes", "  " + loop))
    assert found.field.startswith("needs[")
    assert "A3:tacked waits for A2:finished, because the post stands on a cross tube that holds" in found.instead
    assert "A2:welded waits for A3:finished, because the post keeps the rails apart" in found.instead


def test_several_slips_are_said_at_once() -> None:
    """An unknown joint, an unknown member and a wrong quarter give three complaints in order."""
    found = refused(
        ('parts = ["P", "X"]', 'parts = ["P", "XX"]'), ('seam = "A1", quarter = "q9"', 'seam = "A9", quarter = "q8"')
    )
    assert [c.field for c in found] == ["joints[A3].parts", "covers[1].seam", "covers[1].quarter"]
