#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""check-cut-plans.py PROGRAM FIRST COUNT: has PROGRAM plan random cutting problems and checks the
plans with check_cutting.py, which shares no code with the solver.

Every plan must be feasible and cost what it says; its bound must lie between the bound of material
alone, computed here with exact fractions, and the cost. Prints TAP, one point for each problem.
"""
import json
import subprocess
import sys

from check_cutting import check, material_bound


def faults_of(case):
    instance = case['instance']
    faults, cost, _bars, _waste = check(instance, case['plan'])
    yield from faults
    if cost != case['cost']:
        yield f'costs {cost}, says {case["cost"]}'
    if not material_bound(instance) <= case['bound'] <= cost:
        yield f'bound {case["bound"]} is not from {material_bound(instance)} to {cost}'
    if case['proven'] != (case['bound'] == cost):
        yield f'bound {case["bound"]} and cost {cost}, but proven is {case["proven"]}'


def main(program, first, count):
    output = subprocess.run([program, first, count], check=True, stdout=subprocess.PIPE).stdout
    lines = output.decode('utf-8').splitlines()
    print(f'1..{count}')
    bad = len(lines) != int(count)
    for number, line in enumerate(lines, 1):
        faults = list(faults_of(json.loads(line)))
        bad = bad or faults
        print(f'{"not ok" if faults else "ok"} {number} seed {int(first) + number - 1}')
        for fault in faults:
            print(f'# {fault}')
    return 1 if bad else 0


if __name__ == '__main__':
    sys.exit(main(*sys.argv[1:]))
