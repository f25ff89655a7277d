"""A customer's name and address stand in the customer's own line and in no other line of the record."""

import json
from pathlib import Path

import pytest

from server.work.register_sheet import read_register


def lines_of(folder: Path) -> list[tuple[str, str]]:
    """Every line of the shop's papers and deliveries, and every register table, each with its kind."""
    papers = (folder / "papers.jsonl").read_text(encoding="utf-8").splitlines()
    deliveries = (folder / "deliveries.jsonl").read_text(encoding="utf-8").splitlines()
    found = [(str(json.loads(line)["line"]["kind"]), line) for line in papers]
    found += [("entry", line) for line in deliveries]
    for file in folder.glob("*.toml"):
        if file.name != "shop.toml":
            told = read_register(file.read_text(encoding="utf-8"), file.name)
            found += [(each.noun.kind, json.dumps(each.words, ensure_ascii=False)) for each in told]
    return found


@pytest.fixture(scope="module")
def lines(small: Path) -> list[tuple[str, str]]:
    return lines_of(small)


def test_names_and_addresses_stand_in_the_customers_lines_alone(lines: list[tuple[str, str]]):
    """Packets, shipments, owners, claims, containments and entries name a customer by number."""
    customers = [json.loads(line) for kind, line in lines if kind == "customer"]
    customers = [each.get("line", each) for each in customers]
    assert len(customers) > 20
    details = {each["name"] for each in customers} | {each["address"] for each in customers if each.get("address")}
    elsewhere = [(kind, detail) for kind, line in lines if kind != "customer" for detail in details if detail in line]
    assert elsewhere == []


def test_a_name_elsewhere_would_be_seen(lines: list[tuple[str, str]]):
    """The same search finds the numbers, which do stand elsewhere."""
    assert any('"C-01"' in line for kind, line in lines if kind == "claim")
