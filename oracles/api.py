"""Sends to the app's door what its description allows and what it forbids, and looks at every answer.

    python3 oracles/api.py PROGRAM [SECONDS]

Needs schemathesis 4.32.5 (MIT) in the same environment. PROGRAM is headlap; it serves from a folder that is thrown away.
Every answer must be one that schema/openapi.json describes, in its shape; what the description forbids must be refused with a
4xx in words, and no request may end in a 5xx. Ends with 1 if one does not.
"""

import pathlib
import re
import subprocess
import sys
import tempfile

SCHEMA = pathlib.Path(__file__).resolve().parent.parent / "schema" / "openapi.json"
CHECKS = "not_a_server_error,status_code_conformance,content_type_conformance,response_schema_conformance,negative_data_rejection"
SEED = "611"


def main(program, seconds="120"):
    with tempfile.TemporaryDirectory() as data:
        command = [program, "serve", "--no-open", "--port", "0", "--data", data]
        server = subprocess.Popen(command, stderr=subprocess.PIPE, text=True)
        try:
            address = re.search(r"open at (http:\S+?)/ ", server.stderr.readline()).group(1)
            st = pathlib.Path(sys.executable).with_name("st")
            run = [st, "run", SCHEMA, "--url", address, "--checks", CHECKS, "--seed", SEED, "--max-time", seconds]
            # What it keeps for its next run goes with the folder.
            return subprocess.run([*run, "--continue-on-failure", "--warnings", "off"], cwd=data, check=False).returncode
        finally:
            server.kill()


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
