#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""run-cases.py PROGRAM SRC FOLDER: runs the command line cases of a folder and reports in TAP.

A case is a text file of sections, each begun by a line "== TITLE":

  == file NAME    a file to make in the empty folder where the command runs
  == run          shell commands; {src} is the folder of the project, the program is on the path
  == status N     the exit status expected
  == stdout       what is expected, line by line; a line of three dots stands for any lines, and
  == stderr       {version} for the program's version; a section left out means nothing is printed

What stands before the first section says what the case is about.
"""
import os
import pathlib
import re
import subprocess
import sys
import tempfile

SECTION = re.compile(r'^== (\w+) ?(.*)$')


def read_case(path):
    """(title, sections): sections maps a name to a list of (argument, text)."""
    lines = path.read_text(encoding='utf-8').split('\n')
    title, sections, current = [], {}, None
    for line in lines:
        match = SECTION.match(line)
        if match:
            current = [match.group(2), []]
            sections.setdefault(match.group(1), []).append(current)
        elif current is None:
            title.append(line)
        else:
            current[1].append(line)
    unknown = set(sections) - {'file', 'run', 'status', 'stdout', 'stderr'}
    if unknown or 'run' not in sections or 'status' not in sections:
        raise ValueError(f'{path}: not a case: {sorted(unknown)}')
    return ' '.join(title).strip(), {name: [(argument, '\n'.join(text)) for argument, text in parts]
                                     for name, parts in sections.items()}


def pattern_of(expected):
    """A regular expression for the expected text, where "..." stands for any lines."""
    parts = [r'(?:[^\n]*\n)*?' if line == '...' else re.escape(line + '\n')
             for line in expected.rstrip('\n').split('\n')] if expected.strip() else []
    return re.compile(''.join(parts))


def fault_of_output(name, expected, found):
    if pattern_of(expected).fullmatch(found):
        return []
    return [f'{name}, expected:', *expected.rstrip('\n').split('\n'), f'{name}, found:',
            *found.rstrip('\n').split('\n')]


def faults_of(sections, program, source, version):
    with tempfile.TemporaryDirectory() as folder:
        for name, text in sections.get('file', []):
            path = pathlib.Path(folder, name)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding='utf-8')
        environment = dict(os.environ, LC_ALL='C.UTF-8', SOURCE_DATE_EPOCH='1700000000',
                           PATH=f'{pathlib.Path(program).parent}:{os.environ["PATH"]}')
        commands = sections['run'][0][1].replace('{src}', source)
        done = subprocess.run(['/bin/sh', '-eu', '-c', commands], cwd=folder, env=environment,
                              stdin=subprocess.DEVNULL, capture_output=True, text=True,
                              encoding='utf-8', check=False, timeout=120)
    faults = []
    if done.returncode != int(sections['status'][0][0]):
        faults.append(f'exit status {done.returncode}, expected {sections["status"][0][0]}')
    for name, found in (('stdout', done.stdout), ('stderr', done.stderr)):
        expected = sections.get(name, [('', '')])[0][1].replace('{version}', version)
        faults += fault_of_output(name, expected, found)
    return faults


def main(program, source, folder):
    paths = sorted(pathlib.Path(folder).glob('*.case'))
    version = subprocess.run([program, '--version'], check=True, capture_output=True,
                             text=True).stdout.split()[-1]
    failed = 0
    print(f'1..{len(paths)}')
    for number, path in enumerate(paths, 1):
        title, sections = read_case(path)
        faults = faults_of(sections, program, source, version)
        failed += bool(faults)
        print(f'{"not ok" if faults else "ok"} {number} {path.stem}: {title}')
        for fault in faults:
            print(f'# {fault}')
    return 1 if failed or not paths else 0


if __name__ == '__main__':
    sys.exit(main(os.path.abspath(sys.argv[1]), *sys.argv[2:]))
