#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Independent checker of plans; shares no code with the program.

  check_plan.py HOUSE.storeyrod PLAN.json [SYSTEMS_DIR]   exit 0: the plan holds; 1: it does not
  check_plan.py run PROGRAM SYSTEMS_DIR HOUSE…            plans each house and checks its plan
  check_plan.py selftest PROGRAM SYSTEMS_DIR HOUSE HOUSE  plants mistakes, which it must find

From the house file and its systems it derives anew: reveals, the condition of every edge, build-up
at corners, trims, clearances and movement. Of the plan it takes on trust only the choices that
follow from no rule: each field's phase and its columns. Then it holds (rules: docs/rules.md):

  areas     bare area = boards + gaps + what lies under trims + backs + clearances; level lines
            through every course are full, no boards overlap, none crosses its pocket line
  stacks    condition, build-up, clearance, back and gap of every edge; area inside the trims
  lengths   of boards with plain ends, from raw lines, R16, clearance, back and gap, to 0.1 mm
  movement  R27 at both ends, hot and cold; or a finding says so
  strips    narrowest rip, shortest piece, notches; or a finding says so
  joins     joint lines meet along every join that carries them, to 0.1 mm
  frame     each piece on two battens (on one if shorter than two of them); centres; screws
  trims     each metre of boundary has one trim, or the table says none
  cutting   each item cut once, no bar overfull, bound no lower than the material
  order     bars, spare, packs, prices, total
  laying    order of fitting, course ripped last, neighbours' colours
  sums      every reckoning adds up to its number
"""

import json
import os
import subprocess
import sys
import tempfile
from collections import Counter

from audit_boards import BoardAudit
from audit_house import House, load_json
from audit_laying import check_laying
from audit_takeoff import (FrameAudit, Runs, check_cutting, check_joins, check_order,
                           check_reckonings)


class Report:
    def __init__(self):
        self.faults = []
        self.counts = Counter()
        self.areas = [0, 0, 0, 0]

    def fault(self, text):
        self.faults.append(text)

    def count(self, what):
        self.counts[what] += 1

    def add_area(self, *areas):
        self.areas = [a + b for a, b in zip(self.areas, areas)]


def check_stacks(house, report):
    plan = house.plan
    if len(house.fields) != len(plan['fields']) or len(house.faces) != len(plan['faces']):
        report.fault('faces or fields are missing')
    for field, planned in zip(house.fields, plan['fields']):
        if len(field.edges) != len(planned['edges']):
            report.fault(f'{planned["face"]}: edges are missing')
            continue
        for edge, other in zip(field.edges.values(), planned['edges']):
            numbers = {'build_up_mm': edge.build_up, 'clearance_mm': edge.clearance,
                       'back_mm': edge.back, 'gap_across_mm': edge.across,
                       'absorbed_mm': edge.absorbed}
            words = {'condition': edge.condition, 'starter': edge.starter,
                     'trim': edge.trim['id'] if edge.trim else None}
            for member, value in numbers.items():
                if abs(other[member] - value) > 0.0011:
                    report.fault(f'{planned["face"]} {edge.key}: {member} {other[member]}, '
                                 f'reckoned {value:.3f}')
            for member, value in words.items():
                if other.get(member) != value:
                    report.fault(f'{planned["face"]} {edge.key}: {member} {other.get(member)}, '
                                 f'should be {value}')
        strains = (planned['expand'], planned['shrink'])
        if max(abs(a - b) for a, b in zip(strains, (field.expand, field.shrink))) > 1e-6:
            report.fault(f'{planned["face"]}: strains {strains}, reckoned '
                         f'{field.expand:.6f} and {field.shrink:.6f}')
        area = field.region('clad').area() / 1e6
        if abs(area - planned['clad_m2']) > 1e-4:
            report.fault(f'{planned["face"]}: {planned["clad_m2"]} m² inside trims, '
                         f'reckoned {area:.6f}')


def check(house_path, plan, systems):
    report = Report()
    house = House(house_path, plan, systems)
    check_stacks(house, report)
    laid = []
    for index, field in enumerate(house.fields):
        boards = BoardAudit(house, index, field, report)
        laid.append((field, boards.pieces))
        boards.run()
        FrameAudit(house, index, field, boards.pieces, boards.segments, report).run()
    marks = Counter(piece['mark'] for piece in plan['pieces'])
    for mark, n in marks.items():
        if n > 1:
            report.fault(f'{n} pieces are called {mark}')
    check_laying(house, laid, report)
    Runs(house, report).run()
    check_joins(house, report)
    check_cutting(house, report)
    check_order(house, report)
    check_reckonings(house, report)
    return report


def plan_of(program, house_path):
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, 'plan.json')
        done = subprocess.run([program, house_path, '--plan', path], capture_output=True,
                              text=True, check=False)
        if done.returncode not in (0, 1):
            raise SystemExit(f'{house_path}: {done.stderr}')
        return load_json(path)


def say(name, report):
    pocket, boards, gaps, hidden = (area / 1e6 for area in report.areas)
    counts = report.counts
    print(f'{name}: {len(report.faults)} faults; {counts["pieces"]} boards, '
          f'{counts["lengths reckoned"]} lengths, {counts["distances"]} distances, '
          f'{counts["joins"]} joins; {pocket:.3f} m² = {boards:.3f} + {gaps:.3f} gaps '
          f'+ {hidden:.3f} under trims')
    for fault in report.faults[:20]:
        print('  ', fault)


def run(program, systems, houses):
    faults = 0
    for path in houses:
        report = check(path, plan_of(program, path), systems)
        say(os.path.basename(path), report)
        faults += len(report.faults)
    return 1 if faults else 0


# Mistakes to plant, each a statement about a plan: `piece` is a whole board, `field` its field,
# `bars` the first list with two bars, `lines` the order.
MISTAKES = {
    'a board 0.3 mm too long': "piece['length_mm'] += 0.3",
    'a board drawn 1 mm too long': "piece['rings'][0] = stretched(piece['rings'][0], 1)",
    'a board less': "drop(plan, 3)",
    'a board over another': "plan['pieces'][4]['rings'] = plan['pieces'][3]['rings']",
    'a gap too small': "piece['left']['gap_mm'] -= 3",
    'joint lines 1 mm higher': "shift(field, 1)",
    'a joint line out of step': "field['joint_lines'][2]['height_mm'] += 0.2",
    'a trim less': "del plan['trims'][3]",
    'a trim too short': "plan['trims'][3]['length_mm'] -= 40",
    'a trim with a screw more': "plan['trims'][3]['screws'] += 1",
    'a board with a screw less': "piece['screws'] -= 1",
    'battens missing': "plan['battens'] = plan['battens'][:2] + plan['battens'][5:]",
    'a flange that is not there': "piece['flange_mm'] += 5",
    'a corner without build-up': "field['edges'][1]['build_up_mm'] = 0",
    'another condition': "field['edges'][1]['condition'] = 'side-stop'",
    'another trim': "field['edges'][1]['trim'] = 'edge'",
    'too large an area': "field['clad_m2'] += 0.01",
    'another colour': "piece['colour'] = 'walnut'",
    'boards fitted in another order': "swap_turns(plan)",
    'a number of fitting left out': "plan['pieces'][-1]['sequence'] += 1",
    'another course ripped last': "field['last_ripped_course'] += 1",
    'less movement': "field['expand'] *= 0.9",
    'an item cut twice': "bars[0]['items'].append(bars[1]['items'][0])",
    'an item not cut': "bars[0]['items'].pop()",
    'a full bar overfilled': "bars[0]['items'] += bars.pop(1)['items']",
    'a cut too short': "plan['cutting'][0]['items'][0]['length_mm'] -= 1",
    'too high a bound': "plan['cutting'][0]['bound'] = plan['cutting'][0]['cost'] + 1",
    'too low a bound': "plan['cutting'][-1].update(bound=1, proven=False)",
    'a bar too few': "lines[0]['needed'] -= 1",
    'no spare': "next(line for line in lines if line['spare'])['spare'] = 0",
    'part of a pack': "lines[0]['ordered'] -= 1",
    'a line that costs less': "lines[0]['total'] -= 1",
    'another total': "plan['total'] += 0.01",
    'terms that do not add up': "piece['length_reckoning']['terms'][1]['value'] -= 0.1",
    'a reckoning of another number': "explain_less(piece['width_reckoning'])",
    'two boards of one mark': "plan['pieces'][4]['mark'] = piece['mark']",
}


def stretched(ring, by):
    right = max(x for x, _ in ring)
    return [[x + by, y] if x > right - 0.01 else [x, y] for x, y in ring]


def swap_turns(plan):
    one, other = plan['pieces'][1:3]
    one['sequence'], other['sequence'] = other['sequence'], one['sequence']


def drop(plan, index):
    del plan['pieces'][index]
    for field in plan['fields']:
        holds = field['first_piece'] <= index < field['first_piece'] + field['pieces']
        field['first_piece'] -= field['first_piece'] > index
        field['pieces'] -= holds


def shift(field, by):
    field['phase_mm'] += by
    for line in field['joint_lines']:
        for member in ('across_mm', 'place_mm', 'height_mm'):
            line[member] += by


def explain_less(reckoning):
    reckoning['terms'][0]['value'] -= 2
    reckoning['result'] -= 2


def selftest(program, systems, house_path, narrow_path):
    """A plan without mistakes passes, and one mistake is enough to refuse it."""
    failures = []
    text = json.dumps(plan_of(program, house_path))
    if check(house_path, json.loads(text), systems).faults:
        failures.append('a plan without mistakes was refused')
    for name, statement in MISTAKES.items():
        plan = json.loads(text)
        bars = next(c['bars'] for c in plan['cutting'] if len(c['bars']) > 1)
        scope = {'plan': plan, 'piece': plan['pieces'][1], 'field': plan['fields'][0],
                 'bars': bars, 'lines': plan['order'], 'stretched': stretched, 'drop': drop,
                 'shift': shift, 'explain_less': explain_less, 'swap_turns': swap_turns}
        exec(statement, scope)
        if json.dumps(plan) == text:
            failures.append(f'{name}: nothing was changed')
        elif not check(house_path, plan, systems).faults:
            failures.append(f'{name}: was not found')
    plan = plan_of(program, narrow_path)
    if check(narrow_path, plan, systems).faults:
        failures.append('the plan of narrow walls was refused')
    for finding in ('sliver', 'short-piece'):
        kept = [f for f in plan['findings'] if f['id'] != finding]
        if len(kept) == len(plan['findings']):
            failures.append(f'{finding}: the plan of narrow walls does not say so')
        elif not check(narrow_path, {**plan, 'findings': kept}, systems).faults:
            failures.append(f'{finding}: was not missed')
    for failure in failures:
        print(failure)
    print(f'{len(MISTAKES) + 2} mistakes planted, {len(failures)} failures')
    return 1 if failures else 0


if __name__ == '__main__':
    sys.dont_write_bytecode = True
    arguments = sys.argv[1:]
    if arguments[:1] == ['run'] and len(arguments) > 3:
        sys.exit(run(arguments[1], arguments[2], arguments[3:]))
    if arguments[:1] == ['selftest'] and len(arguments) == 5:
        sys.exit(selftest(*arguments[1:]))
    if len(arguments) not in (2, 3):
        sys.exit(__doc__)
    ours = os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', '..', 'data', 'systems')
    result = check(arguments[0], load_json(arguments[1]), (arguments + [ours])[2])
    say(os.path.basename(arguments[0]), result)
    sys.exit(1 if result.faults else 0)
