"""Every small fault put into a rule turns one of its cases red."""

import ast
import importlib
import inspect
import types

import pytest

from server.judgement import against, asking
from server.judgement.book import RULES
from server.judgement.rule import Rule
from server.occasions import frames, passes
from tests.judgement.case_page import PAGES, differences, read_page, rules_for
from tests.judgement.mutants import Mutant, made, made_upon, mutants

# Faults that change nothing anybody could see, each with why.
EQUIVALENT = {
    ("outside-colour", "another limit"): "colours are looked up by side and zone; the name is for the reader",
    ("inside-colour", "another limit"): "colours are looked up by side and zone; the name is for the reader",
    ("clock", "Lt to LtE"): "a clock off by nothing is within, before the way is asked",
    ("revision-in-force", "in_force taken for procedure"): "two revisions of one procedure bear one name",
    ("revision-in-force", "shown taken for in_force"): "where they agree, either tells the revision",
}


def module_of(rule: Rule) -> types.ModuleType:
    return importlib.import_module(rule.judge.__module__)


def stays_green(rule: Rule, module: types.ModuleType) -> bool:
    """Tell whether all cases of a rule's page still come out as written with this module in its place."""
    page, cases = read_page(PAGES / f"{rule.id}.toml")
    faulty = getattr(module, rule.judge.__name__)
    rules = tuple(faulty if each.id == rule.id else each for each in rules_for(page))
    return not any(differences(case, rules) for case in cases)


@pytest.mark.parametrize("rule", RULES, ids=[rule.id for rule in RULES])
def test_every_fault_in_a_rule_is_seen(rule: Rule):
    """A comparison flipped, a unit dropped, a severity, limit or look-up swapped in a rule's file turns a case red."""
    module = module_of(rule)
    unseen = [mutant.fault for mutant in mutants(module) if stays_green(rule, made(module, mutant))]
    assert [fault for fault in unseen if (rule.id, fault.partition(",")[0]) not in EQUIVALENT] == []


def green_upon(rule: Rule, faulty: types.ModuleType) -> bool:
    return stays_green(rule, made_upon(module_of(rule), faulty))


RANGES = [rule for rule in RULES if "against(me, on, me.limit" in inspect.getsource(module_of(rule))]
ASKING = [*RANGES, *(rule for rule in RULES if rule.id in ("sleeve-named", "tungsten-type"))]


@pytest.mark.parametrize("rule", RANGES, ids=[rule.id for rule in RANGES])
def test_a_missing_limit_or_figure_is_seen(rule: Rule):
    """A fault in whether there is a limit and a figure at all turns red a case of every rule that compares them."""
    in_it = [each for each in mutants(against) if each.function == "against" and "Or to And" not in each.fault]
    assert [each.fault for each in in_it if green_upon(rule, made(against, each))] == []


def test_every_fault_in_the_comparison_is_seen():
    """A fault in how a figure is held against its limit turns a case of some rule red."""
    faults = [(each, made(against, each)) for each in mutants(against)]
    assert [each.fault for each, faulty in faults if all(green_upon(rule, faulty) for rule in RANGES)] == []


def test_every_fault_in_asking_is_seen():
    """A fault in when a plan asks for a reading turns a case of some rule red."""
    faults = [(each, made_upon(against, made(asking, each)), made(asking, each)) for each in mutants(asking)]
    unseen = [
        each.fault
        for each, through, itself in faults
        if all(green_upon(rule, through if rule in RANGES else itself) for rule in ASKING)
    ]
    assert unseen == []


@pytest.mark.parametrize("rule", RANGES, ids=[rule.id for rule in RANGES])
def test_the_wrong_day_is_seen(rule: Rule, monkeypatch: pytest.MonkeyPatch):
    """Taking the day an entry was made for the day it tells of turns red a case of every rule that reads a limit."""
    source = inspect.getsource(passes)
    wrong = source.replace("day = tables.days.day_of(at.at_ms)", "day = tables.days.day_of(timed.tapped_ms)")
    assert wrong != source
    faulty = made(passes, Mutant("the day of the entry", "_pass", ast.parse(wrong)))
    monkeypatch.setattr(frames, "Passes", faulty.Passes)
    assert not stays_green(rule, module_of(rule))
