"""Reads and re-encodes structured reports with pydicom, as the second opinion of the tests.

read FILE...            prints what pydicom finds in each report, as JSON
recode                  writes reports again in other character sets; the jobs are JSON on standard input
tables                  prints the SRT to SCT mapping, the storage classes and the codes of the tables in pydicom
"""

import json
import sys

import pydicom
from pydicom.uid import UID_dictionary

# Deep nesting takes several calls a level.
sys.setrecursionlimit(100_000)


def text_of(item, keyword):
    value = item.get(keyword)
    return None if value is None or str(value) == "" else str(value)


def first_item(item, keyword):
    sequence = item.get(keyword)
    return sequence[0] if sequence else None


def number_of(item, position, tracking):
    concept = first_item(item, "ConceptNameCodeSequence")
    measured = first_item(item, "MeasuredValueSequence")
    unit = None if measured is None else first_item(measured, "MeasurementUnitsCodeSequence")
    return {
        "at": "item " + ".".join(str(part) for part in position),
        "concept": None if concept is None else text_of(concept, "CodeMeaning"),
        "value": None if measured is None else text_of(measured, "NumericValue"),
        "unit": None if unit is None else text_of(unit, "CodeValue"),
        "scheme": None if unit is None else text_of(unit, "CodingSchemeDesignator"),
        "tracking": tracking,
    }


def numbers_in(item, position, tracking):
    children = list(item.get("ContentSequence") or [])
    for child in children:
        concept = first_item(child, "ConceptNameCodeSequence")
        if concept is not None and text_of(concept, "CodeValue") == "112039":
            tracking = text_of(child, "TextValue")
    own = [number_of(item, position, tracking)] if item.get("ValueType") == "NUM" else []
    for index, child in enumerate(children):
        own += numbers_in(child, position + [index + 1], tracking)
    return own


def read(path):
    report = pydicom.dcmread(path, force=True)
    return {
        "patientId": text_of(report, "PatientID"),
        "patientName": text_of(report, "PatientName"),
        "numbers": numbers_in(report, [1], None),
    }


def read_if_possible(path):
    """None for a file that pydicom itself fails on."""
    try:
        return read(path)
    except Exception as error:
        print(f"{path}: {error!r}", file=sys.stderr)
        return None


def recode(source, target, terms):
    report = pydicom.dcmread(source)
    report.decode()
    report.SpecificCharacterSet = terms
    report.save_as(target)


def tables():
    from pydicom.sr._concepts_dict import concepts
    from pydicom.sr._snomed_dict import mapping

    codes = {}
    for scheme, by_keyword in concepts.items():
        for by_value in by_keyword.values():
            for value, (meaning, _) in by_value.items():
                codes[f"{scheme}:{value}"] = meaning
    return {
        "srt": mapping["SRT"],
        "codes": codes,
        "storage": {
            uid: name for uid, (name, *_) in UID_dictionary.items() if "Storage" in name
        },
    }


verb, *arguments = sys.argv[1:]
if verb == "read":
    print(json.dumps([read_if_possible(path) for path in arguments]))
elif verb == "recode":
    for job in json.load(sys.stdin):
        recode(job["from"], job["to"], job["terms"])
else:
    print(json.dumps(tables()))
