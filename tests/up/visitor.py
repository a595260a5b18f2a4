"""A visitor of the pages without a browser: signs in, sends forms, reads what comes back."""

from __future__ import annotations

import re
import urllib.error
import urllib.parse
import urllib.request
from http.cookiejar import CookieJar

__all__ = ["Visitor", "demo_visitor"]


class Visitor:
    """Keeps cookies as a browser does. An answer is its status and its body; status 0 is no answer at all."""

    def __init__(self, address: str) -> None:
        self._address = address
        self._opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar()))

    def get(self, path: str) -> tuple[int, bytes]:
        return self._answer(urllib.request.Request(self._address + path))

    def post(self, path: str, **fields: str) -> tuple[int, bytes]:
        """Send the form of a page, with the token that the page gives."""
        _, page = self.get(path)
        token = re.search(rb'name="csrfmiddlewaretoken" value="(\w+)"', page)
        assert token, page
        form = {**fields, "csrfmiddlewaretoken": token[1].decode()}
        return self._answer(urllib.request.Request(self._address + path, urllib.parse.urlencode(form).encode()))

    def _answer(self, request: urllib.request.Request) -> tuple[int, bytes]:
        try:
            with self._opener.open(request, timeout=30) as answer:
                return answer.status, answer.read()
        except urllib.error.HTTPError as error:
            with error:
                return error.code, error.read()
        except OSError:
            return 0, b""


def demo_visitor(address: str, said: str, role: str) -> Visitor:
    """Sign in as one of the demo, by what `manage.py up` said at its start."""
    password = re.search(r"with the password (\w+) as$", said, re.MULTILINE)
    email = re.search(rf"^  {role} +(\S+)$", said, re.MULTILINE)
    assert password, said
    assert email, said
    visitor = Visitor(address)
    status, page = visitor.post("/sign-in/", login=email[1], password=password[1])
    assert (status, b"Sign out" in page) == (200, True)
    return visitor
