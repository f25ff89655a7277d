"""RFC 6962 / RFC 9162 hashing against the public data of a well-kept implementation.

Source: transparency-dev/merkle (Apache-2.0). The 98 inclusion and 98 consistency cases in merkle_proofs.json are its
testdata/, most of them corrupted on purpose; the roots are in its testonly/constants.go, the two single hashes in its
rfc6962 tests. The data are carried over as they are, values in base64.
"""

import json
from base64 import b64decode
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path

import pytest

from server.evidence.frontier import Frontier
from server.evidence.leaves import leaf_hash, node_hash
from server.evidence.proofs import consistency_holds, inclusion_holds
from server.evidence.trees import Tree

CASES = json.loads(Path(__file__).with_name("merkle_proofs.json").read_text())["cases"]
LEAVES = ["", "00", "10", "2021", "3031", "40414243", "5051525354555657", "606162636465666768696a6b6c6d6e6f"]
ROOTS = [
    "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
    "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
    "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
    "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
    "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
    "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
    "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
    "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
    "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
]


def name_of(case):
    return case["case"]


def hashes(texts):
    return [b64decode(text) for text in texts or ()]


def roots_with(leaf: Callable[[bytes], bytes]) -> list[str]:
    frontier, roots = Frontier(), [Frontier().root().hex()]
    for written in LEAVES:
        frontier.append(leaf(bytes.fromhex(written)))
        roots.append(frontier.root().hex())
    return roots


@pytest.mark.parametrize("case", CASES["inclusion"], ids=name_of)
def test_inclusion(case):
    """Each published inclusion case is accepted or refused as the source says."""
    leaf, root = hashes([case["leafHash"], case["root"]])
    held = inclusion_holds(leaf, case["leafIdx"], case["treeSize"], hashes(case["proof"]), root)
    assert held is not case["wantErr"]


@pytest.mark.parametrize("case", CASES["consistency"], ids=name_of)
def test_consistency(case):
    """Each published consistency case is accepted or refused as the source says."""
    older, newer = hashes([case["root1"], case["root2"]])
    held = consistency_holds(case["size1"], case["size2"], hashes(case["proof"]), older, newer)
    assert held is not case["wantErr"]


def test_all_cases_are_there():
    """The file holds the 98 and 98 cases of the source, 6 of each to be accepted."""
    counts = {kind: (len(cases), sum(not case["wantErr"] for case in cases)) for kind, cases in CASES.items()}
    assert counts == {"inclusion": (98, 6), "consistency": (98, 6)}


def test_roots():
    """The roots of 0 to 8 of the published leaves are the published ones, from the frontier and from the whole tree."""
    tree = Tree(leaf_hash(bytes.fromhex(leaf)) for leaf in LEAVES)
    assert roots_with(leaf_hash) == ROOTS
    assert [tree.root(size).hex() for size in range(9)] == ROOTS


def test_leaves_without_their_prefix_give_other_roots():
    """Control: leave out the 0x00 before a leaf, and from the first leaf on no root is the published one."""
    bare = roots_with(lambda data: sha256(data).digest())
    assert bare[0] == ROOTS[0]
    assert not set(bare[1:]) & set(ROOTS[1:])


def test_single_hashes():
    """The leaf of "L123456" and the node over "N123" and "N456" are the published ones."""
    assert leaf_hash(b"L123456").hex() == "395aa064aa4c29f7010acfe3f25db9485bbd4b91897b6ad7ad547639252b4d56"
    assert node_hash(b"N123", b"N456").hex() == "aa217fe888e47007fa15edab33c2b492a722cb106c64667fc2b044444de66bbb"
