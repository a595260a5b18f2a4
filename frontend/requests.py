"""Reading what forms send: what no form of ours sends is answered with 400, what is too large with 413."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import BadRequest, RequestDataTooBig
from django.core.files.uploadhandler import MemoryFileUploadHandler
from django.http import HttpRequest

__all__ = ["BoundedUpload", "document_sent", "number_sent"]

# Of a document one byte more is read than the longest one has: enough to say that it is too long.
_MOST_READ = 4 * 1024 * 1024 + 1
# A whole upload: the longest document, as a file and pasted beside it, with room for the form around them.
_LARGEST_UPLOAD = 9 * 1024 * 1024


class BoundedUpload(MemoryFileUploadHandler):
    """Takes files into memory, and refuses a request at once that says it is larger than any of ours."""

    def handle_raw_input(self, input_data: Any, META: Any, content_length: int, *args: Any, **kwargs: Any) -> None:  # noqa: N803
        if content_length > _LARGEST_UPLOAD:
            raise RequestDataTooBig("an upload is larger than any that is asked for here")
        self.activated = True


def number_sent(request: HttpRequest, name: str) -> int:
    """Return a number that a form carries. Raises: BadRequest."""
    text = request.POST.get(name, "")
    # Not int() alone: it takes digits of every script, and spaces and underscores between them.
    if not (text.isascii() and text.isdigit() and len(text) < 10):
        raise BadRequest(f"{name} is no number")
    return int(text)


def document_sent(request: HttpRequest) -> bytes:
    """Return the bytes of the document that a form carries: its file, or what was pasted; empty if neither is there."""
    file = request.FILES.get("file")
    if file is not None:
        content: bytes = file.read(_MOST_READ)
        return content
    # Browsers send line ends as CR LF, and the document had none.
    return request.POST.get("text", "").replace("\r\n", "\n").strip().encode(errors="surrogatepass")[:_MOST_READ]
