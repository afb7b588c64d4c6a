#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test-schema.py PROGRAM SCHEMA HOUSE...: the plans of the houses are what the schema says.

Exit status 77 where the validator is not installed. The schema names every member and allows no
others, so that a member without a description is a failure here. Of long lists a sample is taken,
since the validator needs milliseconds for each entry.
"""
import json
import subprocess
import sys

try:
    import jsonschema
except ImportError:
    print('python3-jsonschema is not installed')
    sys.exit(77)


SAMPLE = 150


def sampled(entries):
    step = max(1, len(entries) // SAMPLE)
    return entries[::step]


def sample_of(plan):
    for name in ('faces', 'fields', 'pieces', 'battens', 'trims'):
        plan[name] = sampled(plan[name])
    for cutting in plan['cutting']:
        cutting['items'] = sampled(cutting['items'])
        cutting['bars'] = sampled(cutting['bars'])
    return plan


def refuses(validator, plan, change):
    copy = json.loads(json.dumps(plan))
    change(copy)
    return not validator.is_valid(copy)


def main(program, schema_path, houses):
    with open(schema_path, encoding='utf-8') as file:
        schema = json.load(file)
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    failed = False
    for house in houses:
        done = subprocess.run([program, house, '--plan', '-'], capture_output=True, check=False)
        if done.returncode not in (0, 1):
            print(f'{house}: exit status {done.returncode}: {done.stderr.decode()}')
            failed = True
            continue
        plan = sample_of(json.loads(done.stdout))
        for error in list(validator.iter_errors(plan))[:5]:
            print(f'{house}: {error.json_path}: {error.message[:200]}')
            failed = True
    # The schema can refuse.
    for change in (lambda plan: plan.pop('faces'),
                   lambda plan: plan['pieces'][0].update(length_mm='long'),
                   lambda plan: plan['pieces'][0].update(colour_of_sky='blue'),
                   lambda plan: plan['pieces'][0]['rings'][0][0].append(0),
                   lambda plan: plan['groups'][0].update(rips=1.5)):
        if not refuses(validator, plan, change):
            print('a broken plan is accepted')
            failed = True
    return 1 if failed else 0


if __name__ == '__main__':
    sys.exit(main(sys.argv[1], sys.argv[2], sys.argv[3:]))
