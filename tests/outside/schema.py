"""Holds garment files against the JSON Schema for editors, with an independent validator.

usage: schema.py SCHEMA GARMENT.yaml...
"""

import copy
import json
import re
import sys

import jsonschema
import yaml


class Loader(yaml.SafeLoader):
    """YAML 1.2: `on`, `off`, `yes` and `no` are words."""


Loader.yaml_implicit_resolvers = {
    letter: [(tag, pattern) for tag, pattern in resolvers if tag != "tag:yaml.org,2002:bool"]
    for letter, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}
Loader.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile("^(?:true|false)$"), list("tf"))


def main() -> int:
    with open(sys.argv[1], encoding="utf-8") as file:
        schema = json.load(file)
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    bad = 0
    for path in sys.argv[2:]:
        with open(path, encoding="utf-8") as file:
            garment = yaml.load(file, Loader)
        for error in validator.iter_errors(garment):
            bad += 1
            print(f"{path}: {error.json_path}: {error.message}", file=sys.stderr)
        # A schema that lets everything through would find nothing here either.
        broken = copy.deepcopy(garment)
        broken["sizzes"] = 1
        for entry in broken.get("construction", {}).values():
            if isinstance(entry, dict):
                entry["no_such_input"] = 1
        found = len(list(validator.iter_errors(broken)))
        if found < 2:
            bad += 1
            print(f"{path}: {found} faults found where two were put in", file=sys.stderr)
        print(f"{path}: held against the schema")
    return 1 if bad else 0


sys.exit(main())
