"""Pairing phones: the owner's page with the code, the phone's page that takes it, and the home certificate."""

from __future__ import annotations

from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.routing import Route

from pinfold.errors import InputError, NotFoundError, StoreError
from pinfold.web.answering import desk_of, page
from pinfold.web.bodies import fields_of
from pinfold.web.pages.records import VerbPage
from pinfold.web.pairing import CODE_SECONDS, give_token

_AFTER = ("/phone", "/log", "/")
"""Where a phone goes once it is paired: the first of these that is there."""


def pairing(request: Request) -> Response:
    """The code that is good now, and who is paired."""
    from pinfold.actions.pairing import devices

    desk = desk_of(request)
    code, left = desk.codes.current()
    address = f"{desk.pairing_at}pair" if desk.pairing_at else ""
    return page(
        request, "pairing.html", title="Phones", code=f"{code[:4]}-{code[4:]}" if code else "", seconds=round(left),
        address=address, drawn=_drawn(f"{address}#{code}") if code and address else "",
        minutes=round(CODE_SECONDS / 60),
        devices=devices(desk.folder), locked=desk.codes.locked(),
    )  # fmt: skip


def make_code(request: Request) -> Response:
    """A new code, good once."""
    desk = desk_of(request)
    if not desk.pairing_at:
        raise InputError("the home network is not served; stop, then start again with 'pinfold serve --home'")
    desk.codes.make()
    return RedirectResponse("/pairing", status_code=303)


def unpair(request: Request) -> Response:
    """Let a device go."""
    from pinfold.actions.pairing import unpair_device

    unpair_device(desk_of(request).folder, fields_of(request).get("mark", ""))
    return RedirectResponse("/pairing", status_code=303)


def pair(request: Request) -> Response:
    """Where a phone types the code; a code behind # is filled in by its script."""
    return _pair_page(request)


def take_code(request: Request) -> Response:
    """A phone brings a code and its name; a right one is swapped for a token of its own."""
    from pinfold.actions.pairing import device_name, pair_device

    desk, fields = desk_of(request), fields_of(request)
    try:
        name = device_name(fields.get("name", ""))
        if desk.codes.locked():
            return _pair_page(request, status=429, told="Too many wrong codes. Wait a minute, then try again.")
        if not desk.codes.spend(fields.get("code", "")):
            return _pair_page(request, status=400, told="That code is wrong, used up or too old. Ask for a new one.")
        token = pair_device(desk.folder, name)
    except InputError as mistake:
        return _pair_page(request, status=400, told=f"{mistake.message[:1].upper()}{mistake.message[1:]}.")
    answer = RedirectResponse(_after(request), status_code=303)
    give_token(answer, request.url.scheme, token)
    return answer


def home(request: Request) -> Response:
    """The home certificate: what it is, whether it is there, how phones get it."""
    from pinfold.actions import home as kept
    from pinfold.web import home_ca

    authority, damaged, told = kept.kept("ca.pem"), "", ("", "", "")
    if authority is not None:
        try:
            until = home_ca.good_until(authority).date().isoformat()
            told = (home_ca.fingerprint(authority), home_ca.bound_to(authority), until)
        except StoreError as fault:
            damaged = str(fault)
    trust = _trust_address(request)
    return page(
        request, "pairing_home.html", title="Home certificate", there=authority is not None, damaged=damaged,
        trust=trust, drawn=_drawn(trust) if trust else "", fingerprint=told[0], bound=told[1], until=told[2],
    )  # fmt: skip


def change_home(request: Request) -> Response:
    """Make the home certificate, or remove it; either holds from the next start on."""
    from pinfold.actions import home as kept
    from pinfold.web import home_ca
    from pinfold.web.home_server import home_address, machine_name

    wanted = fields_of(request).get("do", "")
    if wanted == "remove":
        kept.remove()
    elif wanted != "make":
        raise InputError("'make' or 'remove' is wanted", place="do")
    elif kept.kept("ca.pem") is None:
        made = home_ca.make_ca(home_address(), machine_name(), kept.now())
        kept.keep("ca.key", made.key)
        kept.keep("ca.pem", made.certificate)
    return RedirectResponse("/pairing/home", status_code=303)


def trust(request: Request) -> Response:
    """What a phone's owner reads before trusting the home certificate; shown to anybody, in the clear."""
    from pinfold.actions import home as kept

    desk = desk_of(request)
    return _bare(
        request, "pairing_trust.html", title="Home certificate", there=kept.kept("ca.pem") is not None,
        next=f"{desk.pairing_at}pair" if desk.pairing_at else "",
    )  # fmt: skip


def authority(request: Request) -> Response:
    """The authority's certificate, without its key."""
    from pinfold.actions import home as kept

    found = kept.kept("ca.pem")
    if found is None:
        raise NotFoundError("there is no home certificate")
    return Response(found, media_type="application/x-x509-ca-cert")


def _pair_page(request: Request, *, status: int = 200, told: str = "") -> Response:
    fields = fields_of(request)
    name, code = fields.get("name", "")[:40], fields.get("code", "")[:20]
    return _bare(request, "pairing_phone.html", status=status, title="Pair", told=told, name=name, code=code)


def _bare(request: Request, template: str, *, status: int = 200, **values: object) -> HTMLResponse:
    """A page without the frame, for it is shown to devices that may see nothing else."""
    from pinfold.web.guard import token_for

    desk = desk_of(request)
    text = desk.templates.get_template(template).render(version=desk.version, token=token_for(request), **values)
    return HTMLResponse(text, status_code=status)


def _after(request: Request) -> str:
    paths = {getattr(route, "path", "") for route in request.app.routes}
    return next((path for path in _AFTER if path in paths), "/pair")


def _trust_address(request: Request) -> str:
    handing = sorted(desk_of(request).handing)
    numbers = [host for host in handing if host[:1].isdigit()]
    return f"http://{numbers[0]}/pair/trust" if numbers else ""


def _drawn(text: str) -> str:
    import segno

    drawn = segno.make(text, error="m", micro=False)
    svg: str = drawn.svg_inline(
        scale=6, border=4, dark="#000", light="#fff", title=f"Square code of {quote(text, ':/#')}"
    )
    return svg


PAGE = VerbPage(
    verb="pair", path="/pairing", says="Which phones may see this?", group="work", here_only=True,
    routes=(
        Route("/pairing", pairing), Route("/pairing/code", make_code, methods=["POST"]),
        Route("/pairing/unpair", unpair, methods=["POST"]),
        Route("/pairing/home", home, methods=["GET"]), Route("/pairing/home", change_home, methods=["POST"]),
        Route("/pair", pair, methods=["GET"]), Route("/pair", take_code, methods=["POST"]),
        Route("/pair/trust", trust), Route("/ca.pem", authority),
    ),
)  # fmt: skip
