"""An invoice pasted as text: shown as it would land, kept when it is right."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import invoices, reading
from bareshell.app.money_forms import currency_of
from bareshell.errors import BadInput
from bareshell.model.part import SourceClass
from bareshell.web.desk import blank_of, door_of
from bareshell.web.forms import Form, Sent, answered, pairs
from bareshell.web.twin import PageRouter, page, wants_json
from bareshell.whole.invoice_answer import InvoicePreview

router = PageRouter()


@dataclass(frozen=True, slots=True)
class InvoiceShown:
    """The text, and how it would land once it was read."""

    form: Form
    seen: InvoicePreview | None
    suppliers: tuple[str, ...]
    own: str
    sources: tuple[tuple[str, str], ...] = pairs(SourceClass)


@router.page("/shelf/invoice")
def invoice(request: Request) -> Response:
    """Show where an invoice is pasted."""
    return _show(request, Form(), None)


def _show(request: Request, form: Form, seen: InvoicePreview | None) -> Response:
    shelf = reading.shelf(door_of(request))
    suppliers = tuple(dict.fromkeys(one.supplier for one in shelf.coming if one.supplier))
    own = currency_of(door_of(request).build())
    shown = InvoiceShown(form, seen, suppliers, own)
    context = seen or blank_of(request)
    return page(request, "shelf/invoice.html", context, also=shown, status=form.status)


@router.post("/shelf/invoice/look", response_model=None)
def look(request: Request, sent: Sent) -> Response:
    """Read it, and keep nothing."""
    try:
        seen = invoices.look(door_of(request), sent.fields)
    except BadInput as error:
        if wants_json(request):
            raise
        return _show(request, sent.again(error), None)
    return _show(request, sent.kept(), seen)


@router.post("/shelf/invoice", response_model=None)
def take_in(request: Request, sent: Sent) -> Response:
    """Write it down as it was chosen."""

    def again(form: Form) -> Response:
        try:
            return _show(request, form, invoices.look(door_of(request), sent.fields))
        except BadInput:
            return _show(request, form, None)

    return answered(
        request,
        sent,
        lambda pen: invoices.take_in(door_of(request), sent.fields, pen),
        "/orders",
        again,
    )
