"""A photo's place, day and maker go into no pack; its dots stay."""

import struct
import zlib

from hypothesis import given
from hypothesis import strategies as st

from drill.bank.picture import picture_from_bytes
from drill.load.picture_bare import bare_picture
from drill.load.pictures import SchoolPictures


def chunk(name, data):
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def segment(marker, data):
    return bytes((0xFF, marker)) + struct.pack(">H", len(data) + 2) + data


def test_png_loses_its_remarks_and_nothing_else(make_png):
    """Remarks stand between header and dots, and after them."""
    plain = make_png(3, 2)
    header_end = 8 + 25
    told = plain[:header_end] + chunk(b"tEXt", b"Comment\0Lindenhof") + chunk(b"eXIf", b"MM\0*place")
    told += plain[header_end:-12] + chunk(b"tIME", b"\x07\xea\x0b\x19\0\0\0") + plain[-12:]
    assert bare_picture(told) == plain
    assert bare_picture(plain) == plain


def test_jpeg_loses_camera_data_and_remarks(jpeg):
    """What says how the dots are meant stays: JFIF and the colour transform."""
    jfif, colours = segment(0xE0, b"JFIF\0\1\1\0\0\1\0\1\0\0"), segment(0xEE, b"Adobe\0d\0\0\0\0\1")
    told = jpeg[:2] + jfif + segment(0xE1, b"Exif\0\0MM\0*59.3 north") + colours + segment(0xFE, b"Mine")
    told += b"\xff" + jpeg[2:]
    bare = bare_picture(told)
    assert bare == jpeg[:2] + jfif + colours + b"\xff" + jpeg[2:]
    assert picture_from_bytes(bare, words="A tray.").kind == "jpeg"


def test_what_is_no_picture_stays_as_it_is():
    """The header's own check refuses it with words."""
    assert bare_picture(b"GIF89a") == b"GIF89a"


@given(st.sampled_from((b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff", b"")), st.binary(max_size=200))
def test_no_bytes_break_it_and_none_are_added(start, rest):
    """It ends, and what comes back is never longer; done twice it changes nothing more."""
    bare = bare_picture(start + rest)
    assert len(bare) <= len(start + rest)
    assert bare_picture(bare) == bare


def test_school_reads_its_pictures_bare(tmp_path, make_png):
    """So nothing of it gets into a pack."""
    plain = make_png(3, 2)
    (tmp_path / "pictures").mkdir()
    (tmp_path / "pictures" / "tray.png").write_bytes(plain[:33] + chunk(b"tEXt", b"a\0b") + plain[33:])
    assert SchoolPictures(tmp_path).read("pictures/tray.png", words="A tray.").data == plain
