"""Who may sign what: two roles for use as is, as many as its procedure says for a repair, nobody for their own work."""

from collections.abc import Iterable

from server.facts.deciding import Choice, Signature

_TWO_ROLES = frozenset({"use as is", "deviation permit"})
DECIDERS = frozenset({"quality lead", "owner"})


def roles_needed(choice: Choice, repair_roles: frozenset[str] = DECIDERS) -> frozenset[str]:
    """Give the roles that must all sign a decision; `repair_roles` are those the repair procedure asks."""
    if choice == "repair":
        return repair_roles
    return DECIDERS if choice in _TWO_ROLES else frozenset()


def what_is_wrong_with(
    choice: Choice,
    signatures: Iterable[Signature],
    made_by: frozenset[str],
    reason: str,
    repair_roles: frozenset[str] = DECIDERS,
    concession: str | None = None,
) -> list[str]:
    """List, in shop words, why a decision may not stand as it is signed; an empty list says that it may.

    `made_by` names the people whose work or entry the findings are about.
    """
    signed = tuple(signatures)
    return [
        *_reasons_about_words(choice, reason, concession),
        *_reasons_about_roles(choice, signed, repair_roles),
        *(problem for signature in signed for problem in _own_work(signature, made_by)),
    ]


def _reasons_about_words(choice: Choice, reason: str, concession: str | None) -> list[str]:
    problems = []
    if len(reason.strip()) < 3:
        problems.append("reason is empty; write why, in a sentence a stranger understands years later")
    if choice == "use as is" and not concession:
        problems.append("use as is needs a concession; name one, with its frames, its count and its expiry")
    return problems


def _reasons_about_roles(choice: Choice, signed: tuple[Signature, ...], repair_roles: frozenset[str]) -> list[str]:
    problems = [
        f"{each.person} signed as {each.role}; a decision is signed by a quality lead or an owner"
        for each in signed
        if each.role not in DECIDERS
    ]
    missing = roles_needed(choice, repair_roles) - {each.role for each in signed}
    if missing:
        problems.append(f"{choice}: still to sign: {' and '.join(sorted(missing))}")
    if not signed:
        problems.append("signatures: nobody signed; a decision carries at least one")
    one_person = len({each.person for each in signed}) == 1 and len(signed) > 1
    if one_person and not all(each.both_roles_one_person for each in signed):
        problems.append("one person signs in both roles; the record must say so on each signature")
    return problems


def _own_work(signature: Signature, made_by: frozenset[str]) -> list[str]:
    if signature.person in made_by and not signature.both_roles_one_person:
        return [f"{signature.person} would decide on their own work; somebody else signs, or the record says it is one"]
    return []
