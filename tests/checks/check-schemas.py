#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""check-schemas.py ROOT: the published schemas accept the project's files and refuse bad ones.

A validator that is not ours reads docs/schemas and every house and system there is. Of the files
with one mistake each, those whose mistake lies in a single member must be refused too; what only
the program can see (references, shapes) is not a schema's business. Exit status 77 where the
validator is not installed.
"""
import json
import pathlib
import sys

from source_tree import report

try:
    import jsonschema
except ImportError:
    print('python3-jsonschema is not installed')
    sys.exit(77)

# Mistakes of one member that the tables cannot put into a schema: they compare two members.
BEYOND_SCHEMA = {
    'end-trim-eats-board.json',
    'faces-upside-down.json',
    'lap-longer-than-half.json',
    'moisture-upside-down.json',
    'pattern-without-butt-joints.json',
    'pin-line-without-place.json',
    'pin-whole-at-nothing.json',
    'pin-whole-at-two.json',
    'rule-starter-upside-down.json',
    'site-upside-down.json',
    'starter-upside-down.json',
    'system-file-bad.json',
    'system-from-and-members.json',
}
# A schema does not see what stands in the system file that a house names.
BEYOND_FORMAT = {'system-file-is-house.json'}
LEAST_REFUSED = 30


def read(path):
    return json.loads(path.read_text(encoding='utf-8'))


def validator_of(path):
    schema = read(path)
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


def faults_of_good(root, validator, patterns):
    paths = sorted(path for pattern in patterns for path in root.glob(pattern))
    if len(paths) < 3:
        yield f'{patterns}: too few files to prove anything'
    for path in paths:
        for error in list(validator.iter_errors(read(path)))[:3]:
            yield f'{path.relative_to(root)}: {error.json_path}: {error.message[:200]}'


def refused_by_program(folder):
    """Names of files that the program refuses for one member or for their format."""
    for line in (folder / 'expected.txt').read_text(encoding='utf-8').splitlines():
        if line and not line.startswith('#'):
            name, code, _ = line.split(' | ', 2)
            if code in ('MEMBER', 'FORMAT') and name not in BEYOND_SCHEMA | BEYOND_FORMAT:
                yield name


def faults_of_bad(root, validator):
    folder = root / 'tests' / 'engine' / 'bad'
    names = list(refused_by_program(folder))
    if len(names) < LEAST_REFUSED:
        yield f'{folder}: too few files to prove anything'
    for name in names:
        if validator.is_valid(read(folder / name)):
            yield f'tests/engine/bad/{name}: refused by the program, accepted by the schema'


def faults(root):
    schemas = root / 'docs' / 'schemas'
    house = validator_of(schemas / 'house.schema.json')
    system = validator_of(schemas / 'system.schema.json')
    yield from faults_of_good(root, house, ['examples/*.storeyrod', 'tests/**/*.storeyrod'])
    yield from faults_of_good(root, system, ['data/systems/*.json', 'tests/**/*.system.json'])
    yield from faults_of_bad(root, house)


if __name__ == '__main__':
    report(list(faults(pathlib.Path(sys.argv[1]))))
