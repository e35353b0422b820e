from pathlib import Path

from drybuild.project.decoding import LARGEST_FILE, decode

FILE = Path("build.yaml")


def codes(data):
    return [(one.code, one.line) for one in decode(FILE, data)[1]]


def test_line_endings_and_byte_order_mark_stay():
    assert decode(FILE, b"\xef\xbb\xbfa: 1\r\nb: \xc2\xb5\r\n") == ("\ufeffa: 1\r\nb: µ\r\n", ())


def test_what_is_not_utf8_is_named_with_its_line_and_the_rest_still_reads():
    text, problems = decode(FILE, b"a: 1\nb: 20 \xb5m\nc: 3\n")
    assert [(one.code, one.line) for one in problems] == [("not-utf-8", 2)]
    assert "0xB5" in problems[0].wrong
    assert text == "a: 1\nb: 20 \ufffdm\nc: 3\n"


def test_utf16_is_recognised():
    assert codes("a: 1\n".encode("utf-16")) == [("not-utf-8", 1)]


def test_a_huge_file_is_refused_unread():
    assert codes(b"#" * (LARGEST_FILE + 1)) == [("file-too-large", 1)]
