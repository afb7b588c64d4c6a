#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""check-text.py ROOT: the rules of the page that hold for every text file of the project.

Lines of at most 100 characters, no tabs, no blanks at line ends, the licence line, and nothing that
means something on one machine only: absolute paths of a home or scratch folder, tracker numbers,
marks of work left undone.
"""
import pathlib
import re
import sys

from source_tree import project_files, report

SUFFIXES = ('.c', '.h', '.py', '.sh', '.build', '.ui', '.css', '.md', '.in', '.xml', '.yml',
            '.clang-format', '.editorconfig', '.gitignore', 'run', 'install')
WIDTH = 100
# A table row cannot be broken, and an address should not be.
UNBREAKABLE = re.compile(r'^\s*\||https?://\S{40}')
LICENSED = ('.c', '.h', '.py', '.sh', 'run', 'install')
LICENCE = 'SPDX-License-Identifier: GPL-3.0-or-later'
# Spelled so that these lines are not themselves what they look for.
UNWANTED = (
    (r'(?<![\w.}])/(?:home|root|tm[p]|wor[k]|mnt|Users)/\w', 'a path of one machine'),
    (r'\b(?:TO[D]O|FIX[M]E|XX[X])\b', 'work left undone'),
    (r'(?i)\bissu[e]s? #?\d', 'a tracker number, which says nothing to the reader'),
)


def faults_in(place, text):
    if place.suffix in LICENSED or place.name in LICENSED:
        if LICENCE not in '\n'.join(text.splitlines()[:3]):
            yield f'{place}:1: no licence line'
    for number, line in enumerate(text.split('\n'), 1):
        if len(line) > WIDTH and not UNBREAKABLE.search(line):
            yield f'{place}:{number}: {len(line)} characters, {WIDTH} allowed'
        if line != line.rstrip():
            yield f'{place}:{number}: blanks at the end of the line'
        if '\t' in line:
            yield f'{place}:{number}: a tab'
        for pattern, name in UNWANTED:
            if re.search(pattern, line):
                yield f'{place}:{number}: {name}'
    if text and not text.endswith('\n'):
        yield f'{place}: the last line has no end'


def faults_below(root):
    for path in project_files(root, SUFFIXES):
        yield from faults_in(path.relative_to(pathlib.Path(root)), path.read_text(encoding='utf-8'))


if __name__ == '__main__':
    report(list(faults_below(sys.argv[1])))
