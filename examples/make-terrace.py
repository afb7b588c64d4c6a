#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""make-terrace.py HOUSE BLOCKS HOUSES > TERRACE: sets copies of a house side by side.

HOUSE stands alone, with a front, a rear, a left and a right gable that are joined to each other.
The terrace has BLOCKS blocks of HOUSES houses each. Within a block the gables between neighbours
are left out; fronts, rears and their eaves meet in one plane, so that joint lines run through.
Blocks step down the hill by two courses. The same arguments always give the same bytes.

terrace.storeyrod is: make-terrace.py terrace-house.storeyrod 4 6
"""
import copy
import json
import sys

STEP_MM = -500
COLOURS = ('cream', 'sand', 'sage', 'light-grey', 'stone')
WIDTH = 100
# Edges that meet those of the next house, seen from the street: this one's, and the neighbour's.
NEIGHBOURS = (('front', 'right', 'front', 'left'),
              ('rear', 'left', 'rear', 'right'),
              ('front-eaves', 'right', 'front-eaves', 'left'),
              ('rear-eaves', 'left', 'rear-eaves', 'right'))


def flat(value):
    return json.dumps(value, ensure_ascii=False)


def pretty(value, indent=0):
    """JSON with every record on one line where it fits, so that people can read and compare it."""
    if not isinstance(value, (dict, list)) or not value:
        return flat(value)
    if isinstance(value, dict) and indent > 0 and indent + len(flat(value)) < WIDTH:
        return flat(value)
    pad = ' ' * (indent + 2)
    if isinstance(value, list):
        rows = [pad + pretty(item, indent + 2) for item in value]
        return '[\n' + ',\n'.join(rows) + '\n' + ' ' * indent + ']'
    rows = [f'{pad}{flat(name)}: {pretty(item, indent + 2)}' for name, item in value.items()]
    return '{\n' + ',\n'.join(rows) + '\n' + ' ' * indent + '}'


def kept_gables(place, houses):
    """The gables that still stand free at a place in a block of so many houses."""
    return {name for name, free in (('left', place == 0), ('right', place == houses - 1)) if free}


def surfaces_of(house, prefix, level_mm, colour, gables):
    for surface in house['surfaces']:
        if surface['id'] in ('left', 'right') and surface['id'] not in gables:
            continue
        copied = copy.deepcopy(surface)
        copied['id'] = f'{prefix}-{surface["id"]}'
        copied['mark'] = f'{prefix}{surface["mark"]}'
        copied['name'] = f'House {prefix}, {surface["name"].lower()}'
        if surface['kind'] == 'wall':
            copied['colour'] = colour
            copied['level_mm'] = level_mm
        yield copied


def joins_of(house, prefix, gables):
    for join in house['joins']:
        ends = {join['a']['surface'], join['b']['surface']}
        if not (ends & {'left', 'right'}) - gables:
            copied = copy.deepcopy(join)
            copied['id'] = f'{prefix}-{join["id"]}'
            for end in ('a', 'b'):
                copied[end]['surface'] = f'{prefix}-{join[end]["surface"]}'
            yield copied


def joins_between(prefix, following):
    for surface, edge, other, other_edge in NEIGHBOURS:
        yield {'id': f'{prefix}-{following}-{surface}',
               'a': {'surface': f'{prefix}-{surface}', 'edge': edge},
               'b': {'surface': f'{following}-{other}', 'edge': other_edge},
               'fold_deg': 0}


def terrace(house, blocks, houses):
    result = copy.deepcopy(house)
    result['name'] = f'Terrace of {blocks * houses} houses'
    result['surfaces'] = []
    result['joins'] = []
    for number in range(blocks * houses):
        block, place = divmod(number, houses)
        prefix = str(number + 1)
        gables = kept_gables(place, houses)
        result['surfaces'] += surfaces_of(house, prefix, block * STEP_MM,
                                          COLOURS[number % len(COLOURS)], gables)
        result['joins'] += joins_of(house, prefix, gables)
        if place < houses - 1:
            result['joins'] += joins_between(prefix, str(number + 2))
    return result


def main(arguments):
    if len(arguments) != 4 or not all(text.isdigit() and int(text) for text in arguments[2:]):
        sys.exit(__doc__)
    with open(arguments[1], encoding='utf-8') as file:
        house = json.load(file)
    sys.stdout.reconfigure(encoding='utf-8')
    print(pretty(terrace(house, int(arguments[2]), int(arguments[3]))))


if __name__ == '__main__':
    main(sys.argv)
