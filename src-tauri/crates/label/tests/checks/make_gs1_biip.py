"""Writes gs1-biip.json: what the GS1 library biip (PyPI, Apache-2.0) reads.

Run once with: pip install biip==5.2.0 && python make_gs1_biip.py
biip reads two-digit years by the clock; the year of the run is written beside the values.
"""

import datetime
import importlib.metadata
import json
import pathlib

from biip.gs1_application_identifiers import _GS1_APPLICATION_IDENTIFIERS as IDENTIFIERS
from biip.gs1_messages import GS1Message

GS = "\x1d"

SCANS = [
    "0109521041001272" "11241106" "17341105" "10T228401" + GS + "21S7194998",
    "0109521041001272" "17341100" "10ab(21)c" + GS + "240REF-1",
    "0151022222233336" "11141231" "17150707" "10A213B1" + GS + "211234",
    "0110884521062856" "17270228" "21000000000001",
    "0100643169001763" "17160712" "2121A11F4855",
    "0109521041001272" "15991231" "13000101" "16500630" "12010203" "2042",
    "0109521041001272" "3103001750" "10L1" + GS + "302",
    "0109521041001272" "7003301231" "2359" + GS + "710P123" + GS + "8012V1.0",
    "0109521041001272" "250SEC" + GS + "21SER" + GS + "90x" + GS + "91y" + GS + "99z",
    "00376104250021234569" "0209521041001272" "3712",
    "4109521041000008" "10ABC",
    "8003" "09521041000008" "XYZ" + GS + "8004" "9521ABC",
    "253" "9521041000008" "DOC1" + GS + "255" "9521041000008" "77",
]


def width(text: str) -> int:
    """The most characters that a format such as N3+X..9 or N13[+X..17] allows."""
    plain = text.replace("[", "").replace("]", "")
    total = 0
    for part in plain.split("+")[1:]:
        if part == "-":
            total += 1
        elif part == "N1..N2":
            total += 2
        else:
            total += int(part.lstrip("NXYZ.").split("..")[-1])
    return total


scans = []
for scan in SCANS:
    message = GS1Message.parse(scan)
    scans.append({
        "scan": scan,
        "elements": [
            {"code": e.ai.ai, "value": e.value, "date": e.date.isoformat() if e.date else None}
            for e in message.element_strings
        ],
    })

# Left out: mobile telephone identifiers, which no component label carries.
identifiers = [
    {"code": code, "most": width(ai.format), "separator": ai.separator_required, "format": ai.format}
    for code, ai in IDENTIFIERS.items()
    if code not in {"8040", "8041", "8042", "8043"}
]

head = {"library": "biip", "version": importlib.metadata.version("biip"), "year": datetime.date.today().year}
lines = [f" {json.dumps(key)}: {json.dumps(value)}," for key, value in head.items()]
for name, rows in (("scans", scans), ("identifiers", identifiers)):
    lines.append(f' "{name}": [')
    lines += [f"  {json.dumps(row)}," for row in rows]
    lines[-1] = lines[-1].removesuffix(",")
    lines.append(" ]," if name == "scans" else " ]")
pathlib.Path(__file__).with_name("gs1-biip.json").write_text("\n".join(["{", *lines, "}"]) + "\n")
