#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""break-lines.py FILE...: breaks the C lines that are longer than the page, and touches no others.

The house format leaves line breaks to the author. This lets clang-format choose them where a line
is too long, and then brings the file back to the house format.
"""
import pathlib
import subprocess
import sys

WIDTH = 100


def long_lines(path):
    lines = path.read_text(encoding='utf-8').splitlines()
    return [number for number, line in enumerate(lines, 1) if len(line) > WIDTH]


def break_lines(path):
    style = {key: value for key, value in (
        line.split(': ', 1) for line in
        pathlib.Path('.clang-format').read_text(encoding='utf-8').splitlines() if ': ' in line)}
    style['ColumnLimit'] = str(WIDTH)
    inline = '{' + ', '.join(f'{key}: {value}' for key, value in style.items()) + '}'
    numbers = long_lines(path)
    if not numbers:
        return
    ranges = [f'--lines={number}:{number}' for number in numbers]
    subprocess.run(['clang-format', f'--style={inline}', '-i', *ranges, str(path)], check=True)
    subprocess.run(['clang-format', '--style=file', '-i', str(path)], check=True)
    for number in long_lines(path):
        print(f'{path}:{number}: still too long')


if __name__ == '__main__':
    for name in sys.argv[1:]:
        break_lines(pathlib.Path(name))
