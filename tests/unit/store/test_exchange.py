"""Attempts as lines: what comes back, and what is told of lines that are wrong."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.store.exchange import FIELDS, attempts_from_bytes, attempts_to_lines
from drill.store.sqlite_log import memory_log

LINE = (
    '{"id": "019b8f2e279b7abc8def0123456789ab", "student": "Ada Reyes", "device": "tablet-1",'
    ' "at": "2026-01-05T18:00:00.000000+00:00", "day": 20458, "skill": "base-control",'
    ' "item": "base-for-lift", "seed": 7, "rulebook": "r1", "choice": "on_base", "correct": false,'
    ' "misconceptions": ["lift-is-always-on-base"], "certainty": "high", "seconds": 9.5, "setting": "drill"}'
)


def _read(text):
    data = text if isinstance(text, bytes) else text.encode()
    return attempts_from_bytes(data, file="ada.jsonl")


def _problem(text):
    """Read one faulty line; give its only problem as text."""
    attempts, problems = _read(text)
    assert attempts == ()
    assert len(problems) == 1
    return str(problems[0])


def test_round_trip_keeps_every_field(make_attempt):
    """What is written is read again, equal, in order."""
    attempts = [
        make_attempt(),
        make_attempt(days=1.00000123, student="Zoë O'Hara", misconceptions=("a", 'b"c\u2028')),
        make_attempt(days=2, setting="exam", certainty=None, correct=False, seconds=3, seed=2**63 - 1),
        make_attempt(days=3, choice="", skill="\n\x00"),
    ]
    text = "".join(attempts_to_lines(attempts))
    assert text.isascii()
    assert text.count("\n") == len(attempts)
    read, problems = _read(text)
    assert list(read) == attempts
    assert problems == ()
    with memory_log() as log:
        assert log.receive(read, now=attempts[-1].at, origin="ada.jsonl").new == 4


def test_read_when_the_file_has_other_line_ends_then_it_is_read():
    """A byte order mark, carriage returns, blank lines and spaces between are no fault."""
    loose = LINE.replace('": ', '" :\t').replace(", ", " , ")
    attempts, problems = _read(b"\xef\xbb\xbf" + f"\r\n{LINE}\r\n  \n {loose} \n".encode())
    assert problems == ()
    assert len(attempts) == 2
    assert attempts[0] == attempts[1]


def test_read_when_a_zulu_time_then_it_is_utc():
    """Other programs write UTC as Z."""
    attempts, problems = _read(LINE.replace("+00:00", "Z"))
    assert problems == ()
    assert attempts == _read(LINE)[0]


def test_read_goes_on_after_a_fault_and_counts_lines():
    """Good lines are read, each bad one is told with its line."""
    attempts, problems = _read(f"{LINE}\nnonsense\n{LINE}\n[]\n")
    assert len(attempts) == 2
    assert [(one.place.line, one.place.column) for one in problems] == [(2, 1), (4, 1)]


def _column(part, offset=1):
    return LINE.index(part) + offset


@pytest.mark.parametrize(
    ("old", "new", "column", "what"),
    [
        ('"seed": 7', '"seed": 7.5', _column("7,"), "seed is 7.5; write a whole number from 0 to"),
        ('"seed": 7', '"seed": true', _column("7,"), "seed is True; write a whole number"),
        ('"seed": 7', '"seed": -7', _column("7,"), "seed is -7, not from 0 to 9223372036854775807; export"),
        ('"seed": 7', '"seed": NaN', _column("7,"), "this is no JSON value; write text in double quotes"),
        ('"seed": 7', '"sed": 7', _column('"seed'), "unknown field 'sed'; did you mean 'seed'?"),
        ('"seed": 7', '"seed": 7, "seed": 7', _column('"seed', 12), "field 'seed' stands twice; keep one"),
        ('"seed": 7', '"seed" 7', _column('"seed', 8), "expected ':', found '7'; write one attempt a line"),
        ('"seed": 7, ', "", 1, "fields are missing: seed; add them"),
        ("false", '"no"', _column("false"), "correct is no; write true or false"),
        ('"high"', '"sure"', _column('"high'), 'certainty is sure; write "low", "middle", "high" or null'),
        ('"high"', "false", _column('"high'), "certainty is False; write"),
        ('"high"', "0", _column('"high'), "certainty is 0; write"),
        ('"drill"', "null", _column('"drill"'), 'setting is None; write "drill" or "exam"'),
        ("9.5", "-1", _column("9.5"), "seconds is -1.0, not 0 or more; export the log again"),
        ("9.5", "1e999", _column("9.5"), "seconds is inf, not 0 or more"),
        ("9.5", f"1{'0' * 400}", _column("9.5"), "seconds is 1000"),
        ("9.5", '"9"', _column("9.5"), "seconds is 9; write a number of seconds"),
        ('"019b', '"019B', _column('"019b'), "id is 019B8f2e279b7abc8def0123456789ab; write 32 hexadecimal"),
        ('"019b', '"19b', _column('"019b'), "id is 19b8f2e279b7abc8def0123456789ab; write 32 hexadecimal"),
        ("+00:00", "+01:00", _column('"2026'), "at is 2026-01-05T18:00:00.000000+01:00; write a UTC time"),
        ("+00:00", "", _column('"2026'), "at is 2026-01-05T18:00:00.000000; write a UTC time"),
        ('"2026-01-05T', '"2026-01-32T', _column('"2026'), "at is 2026-01-32T18:00:00.000000+00:00; write"),
        ('"2026-01-05T18:00:00.000000+00:00"', "5", _column('"2026'), "at is 5; write a UTC time"),
        ("2026-", "1926-", _column('"2026'), "at is 1926-01-05 18:00:00+00:00, not a UTC time from 1970"),
        ("20458", "20400", _column("20458"), "day 20400 is not a study day of 2026-01-05 18:00:00+00:00"),
        (
            '["lift',
            '[1, "lift',
            _column("[") + 0,
            "misconceptions is [1, 'lift-is-always-on-base']; write a list",
        ),
        (
            '["lift-is-always-on-base"]',
            '"lift"',
            _column("["),
            "misconceptions is lift; write a list of texts",
        ),
        ('"Ada Reyes"', "7", _column('"Ada'), "student is 7; write text in double quotes"),
        ('"Ada Reyes"', '"\\ud800"', _column('"Ada'), "student is \\ud800; write text in double quotes"),
        ('"Ada Reyes"', f'"{"x" * 90}', _column('"device'), "expected"),
        ('"drill"}', '"drill"', len(LINE), "expected ',' or '}', found the end of the line"),
        ('"drill"}', '"drill"} 5', len(LINE) + 2, "there is more after the object; write one object a line"),
        ('"drill"}', '"drill', LINE.index('"drill"') + 1, "this is no JSON value"),
        ('{"id"', '{id"', 2, "expected '\"', found 'i'"),
        ('{"id"', '["id"', 1, "expected '{', found '['"),
    ],
)
def test_read_when_a_line_is_wrong_then_place_fault_and_mend_are_told(old, new, column, what):
    """Every fault has its column, what was found, and what to write."""
    assert LINE.count(old) >= 1
    told = _problem(LINE.replace(old, new, 1))
    assert what in told
    if what != "expected":
        assert told.startswith(f"ada.jsonl:1:{column}: ")


def test_read_when_it_is_no_utf8_then_the_column_is_told():
    """Bytes that are no text are told where they stand, counted in letters."""
    told = _problem(LINE.encode().replace(b"Ada", "Zoë ".encode() + b"\xff"))
    assert told == (
        f"ada.jsonl:1:{_column('Ada') + 4}: this is not UTF-8 text; "
        "save the file as UTF-8, or export the log again"
    )


def test_read_when_a_value_is_very_deep_or_long_then_it_is_told():
    """Neither depth nor length makes a traceback, and long values are cut."""
    assert "this is no JSON value" in _problem(LINE.replace("9.5", "[" * 200_000))
    assert "this is no JSON value" in _problem(LINE.replace("9.5", "9" * 5000))
    told = _problem(LINE.replace("9.5", f'"{"x" * 5000}"'))
    assert "..." in told
    assert len(told) < 200


_json = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(st.characters(), max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=4), inner, max_size=3),
    max_leaves=5,
)


@given(st.binary(max_size=300))
def test_read_any_bytes_without_a_traceback(data):
    """Any bytes give attempts or problems, with places inside the text."""
    _, problems = attempts_from_bytes(data, file="x")
    for problem in problems:
        assert 1 <= problem.place.line <= data.count(b"\n") + 1
        assert 1 <= problem.place.column <= len(data) + 1


@given(st.lists(st.tuples(st.sampled_from(FIELDS), _json), max_size=3), st.data())
def test_read_any_values_without_a_traceback(changes, data):
    """Any JSON value in any field, cut anywhere, gives an attempt that a log takes, or a problem."""
    values = json.loads(LINE) | dict(changes)
    line = json.dumps(values)
    cut = data.draw(st.integers(0, len(line)))
    line = line[:cut] + data.draw(st.sampled_from(["", "", '"', "}", "\\", "\ud7ff"])) + line[cut:]
    attempts, problems = _read(line)
    assert len(attempts) + len(problems) == 1
    with memory_log() as log:
        for attempt in attempts:
            log.append(attempt)
        assert log.attempts() == attempts
