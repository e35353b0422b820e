import json
from pathlib import Path

import jsonschema
import pytest

from drybuild.project.body import KINDS
from drybuild.project.catalogue import CAR_SECTIONS, NAMED, SYSTEMS, TOPS
from drybuild.project.document import Listing, Mapping
from drybuild.project.folder import read_folder
from drybuild.project.parse import parse
from drybuild.project.schema import build_schema
from drybuild.project.starter import starter_text
from drybuild.project.writing import kind_of

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = sorted(one.parent for one in (ROOT / "examples").glob("*/build.yaml"))
SCHEMA = build_schema()
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)


def as_json(node):
    """What an editor makes of a file: the core schema of YAML 1.2."""
    if isinstance(node, Mapping):
        return {key: as_json(entry.node) for key, entry in node.entries.items()}
    if isinstance(node, Listing):
        return [as_json(item) for item in node.items]
    kind = kind_of(node.value or "") if node.plain else "text"
    if kind == "nothing":
        return None
    if kind == "yes or no":
        return node.value.lower() == "true"
    return float(node.value) if kind == "number" else node.value


def faults(text):
    root = parse(Path("build.yaml"), text).root
    return [one.json_path for one in VALIDATOR.iter_errors(as_json(root))]


def test_the_schema_itself_is_well_formed_json():
    jsonschema.Draft202012Validator.check_schema(json.loads(json.dumps(SCHEMA)))


def test_every_section_and_system_is_in_it_with_words():
    properties = SCHEMA["properties"]
    assert set(properties["car"]["properties"]) == set(CAR_SECTIONS)
    assert set(properties["options"]["properties"]) == set(SYSTEMS)
    assert set(properties) >= {*TOPS, *NAMED, "build", "brief", "picks", "limits", "include"}

    sections = [*properties["car"]["properties"].values(), properties["brief"]]
    sections += [
        one["additionalProperties"] for one in properties["options"]["properties"].values()
    ]
    for section in sections:
        for name, entry in section["properties"].items():
            assert entry["description"], name


@pytest.mark.parametrize("kind", KINDS)
def test_starters_pass(kind):
    assert faults(starter_text(kind)) == []


@pytest.mark.parametrize("folder", EXAMPLES, ids=lambda one: one.name)
def test_examples_pass(folder):
    source = read_folder(folder)
    assert not source.problems
    assert [one.json_path for one in VALIDATOR.iter_errors(as_json(source.root))] == []


@pytest.mark.parametrize(
    ("text", "path"),
    [
        ("bild: x\n", "$"),
        ("car: {body: {wheelbse: 2 m}}\n", "$.car.body"),
        ("car: {body: {wheelbase: {valeu: 2 m}}}\n", "$.car.body.wheelbase"),
        ("car: {body: {wheelbase: [2 m]}}\n", "$.car.body.wheelbase"),
        ("options: {engine: {a: {powr: 1 kW}}}\n", "$.options.engine.a"),
        ("options: {engine: {a: {as_is: maybe}}}\n", "$.options.engine.a.as_is"),
        ("options: [engine]\n", "$.options"),
        ("car: {body: {kind: balloon}}\n", "$.car.body.kind"),
        ("format: 2\n", "$.format"),
        ("include: [../x.txt]\n", "$.include[0]"),
    ],
)
def test_an_editor_would_mark_it(text, path):
    assert path in faults(text)


@pytest.mark.parametrize(
    "text",
    [
        'car: {body: {wheelbase: "?", front_track: ~1300 mm, year: 1967}}\n',
        "car: {body: {wheelbase: {value: 2540 mm, plus_minus: 3 mm, from: measured, note: x}}}\n",
        "options: {engine: {a: {power: 100 kW at 5000 rpm, curve: [[9 rpm, 2 N·m], [2, 3]]}}}\n",
        "options: {sun roof: {a: {mass: 12 kg, as_is: false}}}\npicks: {sun roof: a}\n",
        "brief: {use: {town: 100 %}, must: [kerb_mass <= 900 kg], keep: bonnet}\n",
        "car:\noptions:\nbrief:\n",
    ],
)
def test_an_editor_would_leave_it_alone(text):
    assert faults(text) == []
