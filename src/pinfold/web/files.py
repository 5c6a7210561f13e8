"""Files that a page hands over instead of showing."""

from __future__ import annotations

from starlette.responses import Response

CSV = "text/csv; charset=utf-8"
HTML = "text/html; charset=utf-8"
TOML = "application/toml; charset=utf-8"
PDF, SVG, DXF, ZIP = "application/pdf", "image/svg+xml", "image/vnd.dxf", "application/zip"


def to_save(content: bytes | str, *, name: str, media: str) -> Response:
    """A file to save under that name; the name is one of ours and never what somebody typed."""
    headers = {"Content-Disposition": f'attachment; filename="{name}"', "Cache-Control": "no-store"}
    return Response(content, media_type=media, headers=headers)
