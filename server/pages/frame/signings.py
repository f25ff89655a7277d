"""Who is about to sign a form: the visitor, and somebody beside them where two roles are needed."""

from fastapi import Request

from server.facts.people import Person
from server.judgement.signing import DECIDERS
from server.pages.frame.visitor import Visitor
from server.record.book_of_lines import now_ms
from server.record.reads import Reads
from server.work.acting import acting
from server.work.refusal import NotThere
from server.work.signature import Signing, prove_again
from server.work.standing_in import as_standing_in


def signers(reads: Reads) -> tuple[Person, ...]:
    """Give the people who hold a role that decides."""
    registers, at_ms = reads.registers(), now_ms()
    people = (acting(registers, each, at_ms) for each in registers.people.values())
    return tuple(each for each in people if DECIDERS & set(each.roles) and each.left is None)


def deciding_role(visitor: Visitor) -> str:
    """Give the role a visitor decides in: the one they are here in, else another of theirs that decides."""
    return visitor.role if visitor.role in DECIDERS else next(each for each in visitor.roles if each in DECIDERS)


def proved_signings(
    request: Request, visitor: Visitor, meaning: str, secret: str, second: str, second_secret: str
) -> tuple[Signing, ...]:
    """Check the secrets of everybody who signs and give their signings; raises a refusal that says what is wrong."""
    own_role = deciding_role(visitor)
    asked = [Signing(str(visitor.person), secret, visitor.device, own_role, meaning)]
    with request.app.state.record.reads() as reads:
        registers, at_ms = reads.registers(), now_ms()
    if second:
        if second not in registers.people:
            raise NotThere(f"second signature: {second!r} is not a person of this shop; choose a name from the list")
        other = acting(registers, registers.people[second], at_ms)
        role = next((each for each in other.roles if each in DECIDERS and each != own_role), own_role)
        asked.append(Signing(second, second_secret, visitor.device, role, meaning))
    for each in asked:
        prove_again(request.app.state.record, each, at_ms)
    return tuple(as_standing_in(registers, each, at_ms) for each in asked)
