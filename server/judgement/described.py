"""The rule book as a page to read: what each rule asks, why, by which limit, what to do, what it cannot tell."""

from collections.abc import Iterator

from server.facts.acceptance_kinds import ACCEPTANCE_KINDS
from server.facts.limit_kinds import LIMIT_KINDS
from server.facts.procedure import DEFERRAL
from server.judgement.book import RULES, SECTIONS
from server.judgement.causes import CAUSES
from server.judgement.rule import Level, Rule

_HEAD = """# The rule book

Written from the book itself by `python3 -m server rules`; a test holds it up to date. {count} rules, in the order a
reviewer reads them. Each answers with one of five words: *within*, *marginal* (inside the limit, closer than the
instrument can tell; never holds anything up), *outside* (beyond it; *not proved* when the instrument cannot tell),
*unknown* (asked for and missing, or nobody knows how sure the figure is), *not asked*.
A finding *stops* the next step on its joint, asks somebody to *decide* before the frame ships, or is a *note*.
No limit stands in a rule: it comes from the written procedure in force on the day of the weld, from the shop's
acceptance file, from a certificate, a register or the drawing. A rule whose acceptance figure is missing, or not yet in
force, asks nothing. {deferral}
"""
_LEVELS: dict[Level, str] = {
    "tack": "set of tacks",
    "joint": "attempt at a joint",
    "signed": "signed release",
    "bead": "test bead",
    "change": "cylinder change",
    "line check": "check of a gas line",
    "due": "check that falls due",
    "check": "check of an instrument",
    "instrument": "instrument between two calibrations",
    "sleeve": "opening of a sleeve",
    "material": "filler lot or heat",
    "tablet": "stretch of a tablet's clock",
    "nonconformity": "nonconformity about a failed check",
    "concession": "use of a concession",
}


def rules_page() -> str:
    """Give the whole page."""
    parts = [_HEAD.format(count=len(RULES), deferral=DEFERRAL)]
    for title, rules in SECTIONS:
        parts.append(f"\n## {title}\n")
        parts += [_rule(rule) for rule in rules]
    parts.append("\n## Causes\n\nWhat goes wrong with a joint, and the rules that watch for it.\n\n")
    parts.append("| | cause | rules |\n|---|---|---|\n")
    parts += [f"| {number} | {words} | {_watching(number)} |\n" for number, words in CAUSES.items()]
    return "".join(parts)


def _rule(rule: Rule) -> str:
    return f"\n### {rule.id}\n\n**{rule.asks}**\n\n" + "".join(f"- {line}\n" for line in _lines(rule))


def _lines(rule: Rule) -> Iterator[str]:
    yield f"Asked of: each {_LEVELS.get(rule.level, rule.level)}. When it is not so: {rule.severity.value}."
    yield f"Limit: {_limit(rule)}."
    yield f"Why: {rule.why}"
    yield f"What to do: {rule.do}"
    yield f"What it cannot tell: {rule.cannot_tell}"
    if rule.causes:
        yield f"Watches for: {', '.join(f'{CAUSES[cause]} ({cause})' for cause in rule.causes)}."
    if rule.caution:
        yield f"Caution: {rule.caution}"


def _limit(rule: Rule) -> str:
    if rule.limit_from == "procedure" and rule.limit in LIMIT_KINDS:
        kind = LIMIT_KINDS[rule.limit]
        return f"{kind.words}{f' [{kind.unit}]' if kind.unit else ''}, in the written procedure in force"
    if rule.limit in ACCEPTANCE_KINDS:
        figure = ACCEPTANCE_KINDS[rule.limit]
        return f"`{rule.limit}`, {figure.words} [{figure.unit}], in the shop's acceptance file"
    return {
        "procedure": "what the written procedure in force says",
        "acceptance": "whether the shop's acceptance file asks for it",
        "certificate": "the certificate",
        "design": "the drawing",
        "register": "the shop's registers",
        "record": "none; it is a question of what was recorded, and in which order",
    }[rule.limit_from]


def _watching(cause: str) -> str:
    return ", ".join(rule.id for rule in RULES if cause in rule.causes) or "none; only a complete record excludes it"
