"""Archives that a stranger might craft, each made from an honest one with one thing changed.

Shapes of ZIP bombs after David Fifield, "A better zip bomb", WOOT 2019; the list of what SQL of a
stranger may try after "Defense Against The Dark Arts" (sqlite.org/security.html).
"""

from __future__ import annotations

import json
import stat
import struct
import zipfile
from collections.abc import Callable
from pathlib import Path
from random import Random

Members = dict[str, bytes]
Maker = Callable[[Members, Path], None]  # of the honest members, and where the crafted one goes

LAMPS = "CREATE TABLE schema_version_lamps (version_num TEXT NOT NULL);\n"
FINE = "CREATE TABLE lamps_lamp (id INTEGER PRIMARY KEY, watts REAL);\n"


def members_of(path: Path) -> Members:
    """The members of an archive."""
    with zipfile.ZipFile(path) as archive:
        return {n: archive.read(n) for n in archive.namelist()}


def write(members: Members, target: Path) -> None:
    """An archive of these members."""
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in members.items():
            archive.writestr(name, content)


def schema(more: str, *, tables: tuple[str, ...] = (), version: bool = True) -> Maker:
    """More statements in the schema, with an absent plugin's tables as good as empty."""

    def make(members: Members, target: Path) -> None:
        changed = with_lamps(members, *tables) if version else dict(members)
        changed["schema.sql"] += ((LAMPS if version else "") + more).encode()
        write(changed, target)

    return make


def with_lamps(members: Members, *tables: str) -> Members:
    """The members with an absent plugin `lamps` at some revision, and its empty tables."""
    changed = dict(members)
    about = json.loads(changed["archive.json"])
    about["rows"] |= {"schema_version_lamps": 1} | dict.fromkeys(tables, 0)
    changed["archive.json"] = json.dumps(about).encode()
    changed["tables/schema_version_lamps.jsonl"] = b'{"version_num": "lamps0001"}\n'
    return changed | {f"tables/{t}.jsonl": b"" for t in tables}


def rows(table: str, line: bytes, count: int | None = None) -> Maker:
    """A table with other rows; `count` is what the archive says there are."""

    def make(members: Members, target: Path) -> None:
        changed = members | {f"tables/{table}.jsonl": line}
        if count is not None:
            about = json.loads(changed["archive.json"])
            about["rows"][table] = count
            changed["archive.json"] = json.dumps(about).encode()
        write(changed, target)

    return make


def lamp_rows(columns: str, line: bytes, count: int = 1) -> Maker:
    """An absent plugin's table with rows."""

    def make(members: Members, target: Path) -> None:
        changed = with_lamps(members, "lamps_lamp")
        changed["schema.sql"] += f"{LAMPS}CREATE TABLE lamps_lamp ({columns});\n".encode()
        about = json.loads(changed["archive.json"])
        about["rows"]["lamps_lamp"] = count
        changed["archive.json"] = json.dumps(about).encode()
        write(changed | {"tables/lamps_lamp.jsonl": line}, target)

    return make


def about(**changes: object) -> Maker:
    """Other words of the archive about itself."""

    def make(members: Members, target: Path) -> None:
        told = json.loads(members["archive.json"]) | changes
        write(members | {"archive.json": json.dumps(told).encode()}, target)

    return make


def extra(name: str, content: bytes = b"x", mode: int = 0) -> Maker:
    """One member more, with a mode in its attributes."""

    def make(members: Members, target: Path) -> None:
        write(members, target)
        with zipfile.ZipFile(target, "a") as archive:
            member = zipfile.ZipInfo(name)
            member.external_attr = mode << 16
            archive.writestr(member, content)

    return make


def instead(name: str, content: bytes) -> Maker:
    """One member with other bytes."""
    return lambda members, target: write(members | {name: content}, target)


def packed(name: str, method: int) -> Maker:
    """One member packed by another method."""

    def make(members: Members, target: Path) -> None:
        write({k: v for k, v in members.items() if k != name}, target)
        with zipfile.ZipFile(target, "a") as archive:
            archive.writestr(name, members[name], compress_type=method)

    return make


def patched(find: bytes, put: Callable[[bytes], bytes]) -> Maker:
    """The finished archive with its bytes from the last `find` on changed."""

    def make(members: Members, target: Path) -> None:
        write(members, target)
        content = target.read_bytes()
        where = content.rindex(find)
        target.write_bytes(content[:where] + put(content[where:]))

    return make


def many_members(members: Members, target: Path) -> None:
    """A table of contents that is longer than all else."""
    write(members, target)
    with zipfile.ZipFile(target, "a") as archive:
        for number in range(80):
            member = zipfile.ZipInfo(f"tables/t{number}.jsonl")
            member.comment = b"x" * 60_000
            archive.writestr(member, b"")


def twice(members: Members, target: Path) -> None:
    """Two members of one name: which is read depends on the reader."""
    write(members, target)
    content = target.read_bytes()
    target.write_bytes(content.replace(b"tables/animal.jsonl", b"tables/clutch.jsonl"))


def overlapping(members: Members, target: Path) -> None:
    """Many entries of the table of contents that share one packed member."""
    write(members | {"tables/lamps_a.jsonl": b" " * 900_000}, target)
    content = target.read_bytes()
    end = content.rindex(b"PK\x05\x06")
    count, size, start = struct.unpack("<HII", content[end + 10 : end + 20])
    entry = content.rindex(b"PK\x01\x02", 0, end)
    one = content[entry:end]
    more = b"".join(one.replace(b"lamps_a", b"l%06d" % n) for n in range(3000))
    tail = content[end : end + 8] + struct.pack(
        "<HHII", count + 3000, count + 3000, size + len(more), start
    )
    target.write_bytes(content[:end] + more + tail + content[end + 20 :])


def encrypted(tail: bytes) -> bytes:
    """A table of contents whose entry says that it is encrypted."""
    return tail[:8] + b"\x01\x00" + tail[10:]


def half(members: Members, target: Path) -> None:
    """An archive whose end is missing."""
    write(members, target)
    target.write_bytes(target.read_bytes()[:-200])


SPACES = b" " * 30_000_000
NESTED = b'{"id": ' + b"[" * 200_000
LONG = b'{"id": 1, "note": "' + Random(1).randbytes(600_000).hex().encode() + b'"}\n'
CHEAP = b'{"id": 1, "watts": 1}\n'
DOUBLING = "id INTEGER, watts TEXT, " + ", ".join(
    f"c{n} TEXT AS (c{n - 1} || c{n - 1})" if n else "c0 TEXT AS (watts || watts)"
    for n in range(40)
)

CRAFTED: dict[str, tuple[Maker, str]] = {  # what is said of it
    "attach": (schema("ATTACH 'other.warmside' AS o;\n"), "makes no table"),
    "attach and write": (
        schema("ATTACH 'other.warmside' AS o; DELETE FROM o.animal;\n"),
        "makes no table",
    ),
    "two statements in one": (
        schema(FINE.strip() + " DELETE FROM animal;\n", tables=("lamps_lamp",)),
        "one statement",
    ),
    "pragma": (schema("PRAGMA writable_schema = 1;\n"), "makes no table"),
    "vacuum into": (schema("VACUUM INTO 'stolen';\n"), "makes no table"),
    "delete": (schema("DELETE FROM animal;\n"), "makes no table"),
    "insert": (schema("INSERT INTO species VALUES (1);\n"), "makes no table"),
    "select without end": (
        schema("WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i FROM n) SELECT * FROM n;\n"),
        "makes no table",
    ),
    "load extension": (schema("SELECT load_extension('evil');\n"), "makes no table"),
    "trigger on animals": (
        schema("CREATE TRIGGER t AFTER INSERT ON event BEGIN UPDATE animal SET name = 'x'; END;\n"),
        "trigger t on event",
    ),
    "trigger of an absent plugin": (
        schema(
            f"{FINE}CREATE TRIGGER lamps_t AFTER INSERT ON lamps_lamp "
            "BEGIN DELETE FROM animal; END;\n",
            tables=("lamps_lamp",),
        ),
        "trigger lamps_t on lamps_lamp",
    ),
    "temporary trigger": (
        schema("CREATE TEMP TRIGGER t AFTER INSERT ON event BEGIN SELECT 1; END;\n"),
        "makes no table",
    ),
    "trigger named as a guard": (
        schema(
            f"{FINE}CREATE TRIGGER lamps_lamp_is_append_only BEFORE UPDATE ON lamps_lamp\n"
            "BEGIN DELETE FROM animal; END;\n",
            tables=("lamps_lamp",),
        ),
        "trigger lamps_lamp_is_append_only",
    ),
    "view": (schema("CREATE VIEW lamps_v AS SELECT * FROM animal;\n"), "makes no table"),
    "virtual table": (
        schema("CREATE VIRTUAL TABLE lamps_f USING fts5(words);\n"),
        "makes no table",
    ),
    "table in another database": (
        schema("CREATE TABLE temp.lamps_lamp (id INTEGER);\n"),
        "no plugin makes",
    ),
    "table as select": (
        schema("CREATE TABLE lamps_lamp AS SELECT * FROM animal;\n", tables=("lamps_lamp",)),
        "prohibited",
    ),
    "table of a known plugin": (
        schema("CREATE TABLE rhythm_more (id INTEGER);\n"),
        "table rhythm_more",
    ),
    "table of nobody": (schema("CREATE TABLE other (id INTEGER);\n"), "table other"),
    "table without its plugin": (schema(FINE, version=False), "table lamps_lamp"),
    "index on events": (
        schema("CREATE UNIQUE INDEX lamps_i ON event (day);\n"),
        "index lamps_i on event",
    ),
    "index under another name": (
        schema(f"{FINE}CREATE INDEX ix_event_more ON animal (name);\n", tables=("lamps_lamp",)),
        "index ix_event_more on animal",
    ),
    "function in a check": (
        schema(
            "CREATE TABLE lamps_lamp (id INTEGER CHECK (load_extension('x')));\n",
            tables=("lamps_lamp",),
        ),
        "not authorized",
    ),
    "function that fills memory": (
        schema(
            "CREATE TABLE lamps_lamp (id INTEGER, x BLOB AS (zeroblob(900000000)));\n",
            tables=("lamps_lamp",),
        ),
        "not authorized",
    ),
    "pattern that takes for ever": (
        lamp_rows("id INTEGER, watts TEXT CHECK (watts LIKE '%a%a%a%a%a%b')", CHEAP),
        "not authorized to use function",
    ),
    "column that is worked out": (
        lamp_rows("id INTEGER, watts REAL, x TEXT AS (printf('%.*c', 900000000, 'x'))", CHEAP),
        "not authorized to use function",
    ),
    "collation of nobody": (
        lamp_rows("id INTEGER, watts TEXT COLLATE evil", CHEAP),
        "no such collation",
    ),
    "reference to nothing": (
        lamp_rows("id INTEGER REFERENCES animal (id), watts REAL", b'{"id": 77, "watts": 1}\n'),
        "references between its tables are broken",
    ),
    "too many columns": (
        schema(
            f"CREATE TABLE lamps_lamp ({', '.join(f'c{n}' for n in range(900))});\n",
            tables=("lamps_lamp",),
        ),
        "too many columns",
    ),
    "statement without end": (schema("CREATE TABLE lamps_a (id\n" * 5000), "has no end"),
    "values that double": (lamp_rows(DOUBLING, b'{"id": 1, "watts": "aaaaaaaa"}\n'), "too big"),
    "check that is false": (
        lamp_rows("id INTEGER CHECK (id > 5), watts REAL", CHEAP),
        "CHECK constraint failed",
    ),
    "rows of the schema": (rows("sqlite_schema", b"{}\n", 1), "sqlite_schema"),
    "rows of nowhere": (rows("x_nothing", b"{}\n", 1), "x_nothing"),
    "column that is none": (
        lamp_rows("id INTEGER, watts REAL", b'{"id": 1, "a) VALUES (1); --": 2}\n'),
        "other columns",
    ),
    "rows of two shapes": (
        lamp_rows("id INTEGER, watts REAL", CHEAP + b'{"watts": 1}\n', 2),
        "other columns",
    ),
    "a number that fits nowhere": (
        lamp_rows("id INTEGER, watts REAL", b'{"id": %d, "watts": 1}\n' % 10**30),
        "too large",
    ),
    "a list for a value": (
        lamp_rows("id INTEGER, watts REAL", b'{"id": [], "watts": 1}\n'),
        "no text and no number",
    ),
    "two rows in a line": (
        lamp_rows("id INTEGER, watts REAL", b'{"id": 1, "watts": 1}, {"id": 2, "watts": 1}\n', 2),
        "no row",
    ),
    "fewer rows than said": (rows("animal", b""), "were written"),
    "deeply nested": (lamp_rows("id INTEGER, watts REAL", NESTED), "recursion"),
    "a row without end": (lamp_rows("id INTEGER, note TEXT", LONG), "longer than"),
    "spaces without end": (lamp_rows("id INTEGER, watts REAL", SPACES), "would unpack"),
    "a schema without end": (instead("schema.sql", SPACES), "would unpack"),
    "words without end": (instead("archive.json", b" " * 1_500_000), "would unpack"),
    "no text": (instead("schema.sql", b"\xff\xfe\x00"), "utf-8"),
    "another format": (about(format=2), "its format is 2"),
    "no list of rows": (about(rows=[1, 2]), "how many rows"),
    "a count that is text": (about(rows={"animal": "1"}), "how many rows"),
    "path to the root": (extra("/etc/passwd"), "none of a collection's archive"),
    "path upwards": (extra("tables/../../other.jsonl"), "none of a collection's archive"),
    "path of another system": (extra("tables\\..\\x.jsonl"), "none of a collection's archive"),
    "a folder": (extra("tables/"), "none of a collection's archive"),
    "a link": (extra("tables/link.jsonl", b"/etc/passwd", stat.S_IFLNK | 0o777), "no plain file"),
    "a device": (extra("tables/tty.jsonl", b"", stat.S_IFCHR | 0o666), "no plain file"),
    "packed by LZMA": (packed("schema.sql", zipfile.ZIP_LZMA), "packed in a way"),
    "packed by BZIP2": (packed("tables/species.jsonl", zipfile.ZIP_BZIP2), "packed in a way"),
    "encrypted": (patched(b"PK\x01\x02", encrypted), "packed in a way"),
    "more members than can be": (many_members, "too many members"),
    "two of one name": (twice, "one name"),
    "members that overlap": (overlapping, "would unpack"),
    "half": (half, "no ZIP file"),
}
