"""Validates what `headlap check --format sarif` prints against the schema of SARIF 2.1.0 (OASIS).

    python3 oracles/sarif.py SCHEMA PROGRAM JOB...

SCHEMA is sarif-schema-2.1.0.json, as the crate serde-sarif 0.8.0 (MIT) carries it in src/schema.json; PROGRAM is headlap.
Prints one line a job; ends with 1 if one is not valid.
"""

import json
import subprocess
import sys

from jsonschema import Draft7Validator


def main(schema, program, *jobs):
    with open(schema, encoding="utf-8") as file:
        validator = Draft7Validator(json.load(file))
    ends = 0
    for job in jobs:
        printed = subprocess.run([program, "check", "--format", "sarif", job], capture_output=True, text=True, check=False)
        log = json.loads(printed.stdout)
        mistakes = [f"{'/'.join(map(str, error.absolute_path))}: {error.message}" for error in validator.iter_errors(log)]
        print(f"{job}: {len(log['runs'][0]['results'])} results, {len(mistakes)} mistakes")
        for mistake in mistakes:
            print("  " + mistake)
            ends = 1
    return ends


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
