"""What hostile and broken requests are made of."""

from __future__ import annotations

import json

LONG = "A" * 3000
PATHS = [
    "..", "../..", "../../../../etc/passwd", "..%2f..%2fetc%2fpasswd", "....//....//etc/passwd", "%2e%2e/%2e%2e/etc/passwd",
    "/etc/passwd", "//etc/passwd", "C:\\Windows\\win.ini", "..\\..\\win.ini", "file:///etc/passwd", "\0", "plan.toml\0.csv",
    "plan.toml", ".pairings.json", "./plan.toml", "plan.toml/", "plan.toml/..", "plan.toml%00", "prices.toml~", ".", " ", "~",
    "~root", "$HOME", "`id`", "$(id)", "{{7*7}}", "{% include 'base.html' %}", "<script>alert(1)</script>", "'\"><img src=x>",
    "' OR 1=1--", "%", "%%%", "%zz", "%ff", "%c0%ae%c0%ae", "é²±Ø", "👷", "\ud800", "\u202e", "\ufeff", "a\r\nSet-Cookie: x=1",
    "a%0d%0aSet-Cookie:%20x=1", LONG, "A" * 255, "-1", "0", "9" * 400, "NaN", "null", "undefined", "__class__", "__proto__",
    "constructor", "CON", "aux.toml", "con.csv", ";ls", "|ls", "&&", "#", "?", "*", "[", "(", "a/b/c/d", "seed garden.toml",
]  # fmt: skip
QUERIES = [
    "a=1", "=", "&&&&", "a", "batch=", "word=", "save", "save=" + "1" * 3000, "batch=NaN", "batch=1e999%20L", "batch=-1%20L",
    "batch=" + "9" * 400 + "%20L", "batch=0%20L", "batch=60%20L%0d%0aX:1", "batch=%ff%fe", "batch=60%20m", "batch=60", "word=%",
    "word=%00", "word=(((((", "word=" + "(" * 500, "word=[a", "word=*", "word=\\", "word=%c3%28", "word=a&word=b&word=c", "name=..",
    "name=../../etc/passwd", "kind=%3Cscript%3E", "kind=batch&kind=..", "id=1%27%20OR%201=1", "since=9999999999999999999999",
    "since=-1", "limit=-1", "limit=1e9", "limit=abc", "page=999999999999999999999999", "from=0000-00-00", "from=9999-99-99",
    "to=now", "at=2026-13-45T99:99", "side=%F0%9F%91%B7", "%61=%62", "a[b]=1", "a[]=1&a[]=2", ";a=b", "__proto__=1",
    "density=1e308%20kg/m3&speed=1e308%20m/s", "speed=nan%20m/s", "&".join(f"k{n}=1" for n in range(300)), "?????", "%2e%2e%2f",
    "q=%ed%a0%80", "token=1", "mark=..", "photo=..%2f..%2fx.jpg", "layer=%0a", "mix=%27%3B--", "day=2026-02-30", "run=%2F", "x=%25%30%30",
]  # fmt: skip
VALUES = [
    None, True, False, 0, -1, 1, 1.5, -0.0, 10**15, 10**29, -(10**29), 1e308, -1e308, 5e-324, "", " ", "a", "0", "-1", "nan", "inf", "1e999 m",
    "9" * 400, "1 m", "-1 m", "1,5 m", "60 L", "0 L", "²", "١ m", "é", "👷" * 50, "\u202e", "\ufeff", "a\nb", "a\r\nb: c", "..", "../x", "/etc/passwd",
    "plan.toml", ".pairings.json", "x/y.jpg", "C:\\x", "{{7*7}}", "<script>", "' OR 1=1", "'; DROP TABLE entry;--", "$(id)", "2026-13-45", "9999-12-31T23:59:59+14:00",
    "0001-01-01T00:00:00-14:00", "2026-05-03T14:20:05", "T", "now", LONG, "A" * 1_000_000, [], [[]], [[[]]], [None], [1, "a", None], ["a"] * 5000, {}, {"": ""},
    {"a": {"b": {"c": {}}}}, {"__proto__": {"x": 1}}, {"\u202e": 1}, {"a" * 1000: 1}, {str(n): n for n in range(500)}, [{"x": 1}], [[1, 2], [3]], [1e308, 1e308],
]  # fmt: skip
BROKEN_JSON = [
    b"", b" ", b"{", b"}", b"[", b"]", b"{]", b"{'a':1}", b"{a:1}", b'{"a":}', b'{"a":1,}', b"[1,]", b"nul", b"undefined", b"NaN", b"[NaN]", b'{"a":NaN}',
    b"Infinity", b"-Infinity", b"1e999", b"-1e999", b"9" * 5000, b"1" * 31, b"0x10", b"01", b"+1", b".5", b"1.", b"--1", b'"', b'"a', b'"\\', b'"\\x"', b'"\\u12"',
    b'"\\ud800"', b'"\\udfff\\ud800"', b'{"\\ud800":1}', b'"\\u0000"', b'"\\u001b[31m"', b'"\x00"', b'"\x1f"', b"\x00", b"\xff", b"\xfe\xff\x00{", b"\xef\xbb\xbf{}",
    b'"\xc3\x28"', b'"\xed\xa0\x80"', b'"\xf5\x80\x80\x80"', b'{"a":1}{"a":1}', b'{"a":1} x', b'{"a":1,"a":2}', b'{"changes":{},"changes":{}}',
    b"[" * 1000, b"[" * 200_000, b'{"a":' * 1000, b'{"a":' * 1000 + b"1" + b"}" * 1000, b"[" * 100 + b"]" * 100, b"/* */{}", b"// x\n{}", b"<a/>", b"a=1&b=2",
    b"--X\r\n", b"PK\x03\x04", b"\x1f\x8b\x08\x00", b"%PDF-1.7", b"\x89PNG\r\n\x1a\n", b"0" * 1000, b"-", b"e", b"[1e400]", b"[" + b"1," * 100 + b"]", b'{"":',
]  # fmt: skip
BROKEN_FORMS = [
    b"", b"=", b"&", b"&&&&", b"%", b"%zz=%zz", b"a=%00", b"a=%ff", b"\x00", b"\xff\xfe", b"a" * 100_000, b"a=" + b"b" * 100_000, b"code=", b"code=%00&name=x",
    b"code=AAAAAAAA&name=%0d%0aSet-Cookie:x", b"name=" + b"x" * 5000, b"mark=..%2f..%2f", b"mark=%27", b"mark=" + b"0" * 12, b"do=make%00", b"do=", b"do=x&do=y",
    b"do=../../ca.key", b"&".join(b"k%d=1" % n for n in range(300)), b";", b"a=1;b=2", b"mark[]=1", b"mark=%ed%a0%80", b"{}", b'{"do":"make"}', b"--X--",
]  # fmt: skip
BROKEN_PARTS = [
    b"", b"--X", b"--X--", b"--X--\r\n", b"--Y\r\n\r\n--Y--", b"--X\r\n\r\n\r\n--X--\r\n", b"--X\r\nContent-Disposition: form-data\r\n\r\n1\r\n--X--\r\n",
    b'--X\r\nContent-Disposition: form-data; name="a', b'--X\r\nContent-Disposition: form-data; name="a"\r\n', b"--X\n\n", b"--X\r\n" + b"a" * 50_000,
    b'--X\r\nContent-Disposition: form-data; name="f"; filename="../../x.jpg"\r\nContent-Type: image/jpeg\r\n\r\n\xff\xd8\r\n--X--\r\n',
    b'--X\r\nContent-Disposition: form-data; name="f"; filename="a\x00b"\r\n\r\n\r\n--X--\r\n', b"--X\r\nContent-Disposition: form-data; name=\xff\r\n\r\n1\r\n--X--\r\n",
    b"--X\r\nContent-Disposition: attachment; name=a\r\n\r\n1\r\n--X--\r\n", b'--X\r\nX: y\r\n\r\n1\r\n--X--\r\n', b"\r\n" * 1000, b"--X\r\n" * 1000, b"--X-\r\n",
    b"".join(b'--X\r\nContent-Disposition: form-data; name="k%d"\r\n\r\n1\r\n' % n for n in range(400)) + b"--X--\r\n",
    b'--X\r\nContent-Disposition: form-data; name="a"\r\n\r\n' + b"x" * 1_200_000 + b"\r\n--X--\r\n", b'--X\r\nContent-Disposition: form-data; name="a\0"\r\n\r\n1\r\n--X--\r\n',
    b'--X\r\nContent-Disposition: form-data; name="a"\r\nContent-Transfer-Encoding: base64\r\n\r\n!!!\r\n--X--\r\n', b"--X\r\n: \r\n\r\n\r\n--X--\r\n",
]  # fmt: skip
PART_KINDS = [
    "multipart/form-data; boundary=X", "multipart/form-data", "multipart/form-data; boundary=", "multipart/form-data; boundary=" + "X" * 300,
    'multipart/form-data; boundary="X', "multipart/form-data; boundary=X; charset=nonsense", "multipart/form-data; charset=utf-16; boundary=X",
]  # fmt: skip
BROKEN_PHOTOS = [
    b"", b"\0", b"\xff\xd8", b"\xff\xd8\xff\xe0" + b"\0" * 100, b"\x89PNG\r\n\x1a\n", b"\x89PNG\r\n\x1a\n" + b"\0" * 1000, b"GIF89a", b"RIFF\0\0\0\0WEBP", b"BM" + b"\xff" * 60,
    b"<svg xmlns='http://www.w3.org/2000/svg'/>", b"<?xml version='1.0'?><!DOCTYPE a [<!ENTITY b SYSTEM 'file:///etc/passwd'>]><a>&b;</a>", b"%PDF-1.7", b"PK\x03\x04" * 100,
    b"\xff\xd8\xff\xe1\xff\xffExif\0\0" + b"\xff" * 300, b"II*\0\x08\0\0\0" + b"\xff" * 100, b"\0\0\0\x18ftypheic", b"x" * 3_000_000,
    b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\x7f\xff\xff\xff\x7f\xff\xff\xff\x08\x06\0\0\0" + b"\0" * 50,
]  # fmt: skip


def grown(record: object) -> list[object]:
    """A good record with every part of it, one at a time, taken out or put wrong."""
    found: list[object] = []
    for path in _places(record):
        found += [_put(record, path, value) for value in VALUES]
        if path:
            found.append(_put(record, path, ..., out=True))
    return found


def _places(record: object, at: tuple[object, ...] = ()) -> list[tuple[object, ...]]:
    inner = record.items() if isinstance(record, dict) else enumerate(record) if isinstance(record, list) else ()
    return [at, *(place for key, value in inner for place in _places(value, (*at, key)))]


def _put(record: object, path: tuple[object, ...], value: object, *, out: bool = False) -> object:
    if not path:
        return value
    copy = json.loads(json.dumps(record))
    inside = copy
    for key in path[:-1]:
        inside = inside[key]
    if out:
        del inside[path[-1]]
    else:
        inside[path[-1]] = value
    return copy
