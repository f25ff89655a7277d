"""The addresses of customers: all of them, one by number, and the form by which an owner removes the details."""

from typing import Annotated
from urllib.parse import quote

from fastapi import APIRouter, Depends, Form, Request
from fastapi.responses import Response

from server.pages.customers.page import CustomerPage, CustomersPage
from server.pages.frame.access import needs
from server.pages.frame.leading_on import lead_on
from server.pages.frame.rendering import show
from server.pages.frame.signings import proved_signings
from server.pages.frame.visitor import Visitor
from server.record.book_of_lines import now_ms
from server.work.customer_sheet import customer_sheet, customer_sheets
from server.work.refusal import Refusal
from server.work.remove_details import RemovalAsked, remove_details
from server.work.still_holds import still_holds

router = APIRouter(include_in_schema=False)
Owner = Annotated[Visitor, Depends(needs("owner"))]


@router.get("/customers", dependencies=[Depends(needs("owner"))])
def list_customers(request: Request) -> Response:
    """Show every customer by number."""
    with request.app.state.record.reads() as reads:
        sheets = customer_sheets(reads.registers())
    return show(request, "customers/customers.html", CustomersPage(sheets))


@router.get("/customers/{number}", dependencies=[Depends(needs("owner"))])
def one_customer(request: Request, number: str, done: bool = False) -> Response:
    """Show one customer."""
    return _one(request, number, "", (), done=done)


@router.post("/customers/{number}/remove")
def remove(
    request: Request,
    visitor: Owner,
    number: str,
    reason: Annotated[str, Form(max_length=2000)],
    secret: Annotated[str, Form(max_length=200)],
) -> Response:
    """Remove the details of a customer, once the owner has proved themselves again and said why."""
    with request.app.state.record.reads() as reads:
        customer_sheet(reads.registers(), number)
    try:
        signed = proved_signings(request, visitor, f"details of customer {number} removed for good", secret, "", "")
        removed = remove_details(request.app.state.record, RemovalAsked(number, reason, signed), now_ms())
    except Refusal as refused:
        return _one(request, number, reason, tuple(refused.problems))
    return lead_on(f"/customers/{quote(number, '')}?done=true", removed)


def _one(request: Request, number: str, reason: str, problems: tuple[str, ...], *, done: bool = False) -> Response:
    state = request.app.state
    with state.record.reads() as reads:
        sheet = customer_sheet(reads.registers(), number)
    left = still_holds(state.settings, sheet.removal, log_is_empty=not state.record.forgetting) if sheet.removal else ()
    page = CustomerPage(sheet, reason, problems, left, done and sheet.removal is not None)
    return show(request, "customers/customer.html", page, 422 if problems else 200)
