#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""check-linkage.py PREFIXES LIBRARIES FILE...: a layer is free of what lies above it, as built.

FILE is an archive, of which no undefined symbol may begin with one of the comma-separated
PREFIXES, or a program, which may not load one of the LIBRARIES, directly or through another.
"""
import re
import subprocess
import sys

from source_tree import report


def output_of(*command):
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def faults_of(path, prefixes, libraries):
    if path.endswith('.a'):
        names = re.findall(r'^\s*U (\w+)', output_of('nm', '-u', path), re.M)
        for name in sorted(set(names)):
            if name.startswith(prefixes):
                yield f'{path} uses {name}'
    else:
        names = re.findall(r'^\s*(lib\S+)\.so', output_of('ldd', path), re.M)
        if not names:
            yield f'{path}: ldd lists no library, so nothing was checked'
        for name in names:
            if name.startswith(libraries):
                yield f'{path} loads {name}'


if __name__ == '__main__':
    forbidden = [tuple(argument.split(',')) for argument in sys.argv[1:3]]
    report([fault for path in sys.argv[3:] for fault in faults_of(path, *forbidden)])
