"""Who is asking: this machine, a paired device, or nobody known; and the codes that pair a device."""

from __future__ import annotations

import hmac
import secrets
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from http.cookies import CookieError, SimpleCookie

from starlette.datastructures import Headers
from starlette.requests import Request
from starlette.responses import Response

LETTERS = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Of a code: none that is read for another."""
CODE_LENGTH = 8
CODE_SECONDS = 300.0
WRONG_TRIES = 5
WRONG_SECONDS = 60.0
COOKIE_SECONDS = 400 * 24 * 3600
"""How long a phone keeps its token; browsers keep none longer."""


@dataclass(frozen=True, kw_only=True)
class Caller:
    """Who asks.

    Attributes:
        here: this machine itself.
        name: of the paired device, empty for others; entries that it sends carry it.
        proof: of the paired device; tokens of its pages are bound to it.
    """

    here: bool = False
    name: str = ""
    proof: str = ""

    @property
    def known(self) -> bool:
        """Whether it may see the site."""
        return self.here or bool(self.proof)


NOBODY = Caller()
HERE = Caller(here=True)


def caller_of(request: Request) -> Caller:
    """Who asks, as the guard found out."""
    caller = getattr(request.state, "caller", NOBODY)
    assert isinstance(caller, Caller)
    return caller


def cookie_name(scheme: str) -> str:
    """Name of the cookie that holds a device's token; over TLS one that no other host or plain page can set."""
    return "__Host-pinfold" if scheme == "https" else "pinfold"


def shown_token(headers: Headers, scheme: str) -> str:
    """The token that a request shows; empty when it shows none, or more than one."""
    try:
        cookies = SimpleCookie("; ".join(headers.getlist("cookie")))
    except CookieError:
        return ""
    morsel = cookies.get(cookie_name(scheme))
    return morsel.value if morsel is not None else ""


def give_token(response: Response, scheme: str, token: str) -> None:
    """Let the device keep its token where no script can read it."""
    response.set_cookie(
        cookie_name(scheme), token, max_age=COOKIE_SECONDS, path="/", secure=scheme == "https", httponly=True,
        samesite="strict",
    )  # fmt: skip


@dataclass(eq=False)
class Codes:
    """The one pairing code that is good at a time, and how often it was missed; safe to ask from many threads.

    Attributes:
        clock: seconds that only go forward.
    """

    clock: Callable[[], float] = time.monotonic
    _code: str = field(default="", repr=False)
    _until: float = 0.0
    _missed: list[float] = field(default_factory=list)
    _lock: threading.Lock = field(default_factory=threading.Lock, repr=False)

    def make(self) -> str:
        """A new code; the one before it is good no longer."""
        with self._lock:
            self._code = "".join(secrets.choice(LETTERS) for _ in range(CODE_LENGTH))
            self._until = self.clock() + CODE_SECONDS
            return self._code

    def current(self) -> tuple[str, float]:
        """The code that is good now and for how many seconds more; empty when there is none."""
        with self._lock:
            left = self._until - self.clock()
            return (self._code, left) if self._code and left > 0 else ("", 0.0)

    def locked(self) -> bool:
        """Whether too many wrong codes came within a minute."""
        with self._lock:
            return self._count_missed() >= WRONG_TRIES

    def spend(self, typed: str) -> bool:
        """Whether this is the code; it is used up then. A wrong one counts against everybody's tries."""
        plain = "".join(letter for letter in typed.upper() if letter.isalnum())
        with self._lock:
            if self._count_missed() >= WRONG_TRIES:
                return False
            good = bool(self._code) and self._until > self.clock()
            if good and hmac.compare_digest(plain.encode(), self._code.encode()):
                self._code = ""
                return True
            self._missed.append(self.clock())
            return False

    def _count_missed(self) -> int:
        since = self.clock() - WRONG_SECONDS
        self._missed = [moment for moment in self._missed if moment > since]
        return len(self._missed)
