#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""check-potfiles.py ROOT [--write]: all words to translate can be collected.

po/POTFILES lists exactly the files that have any: one left out would silently stay in English.
--write brings the list up to date. No marked text is joined with a macro, such as
G_GINT64_FORMAT, of which the collector sees the name only.
"""
import pathlib
import re
import sys

from source_tree import report, without_comments

MARKED = {
    '.c': re.compile(r'\b(?:N?C?_|d?n?p?gettext|g_d[np]?gettext2?)\s*\('),
    '.h': re.compile(r'\b(?:N?C?_)\s*\('),
    '.ui': re.compile(r'translatable="(?:yes|true)"'),
    '.desktop.in': re.compile(r'^(?:Name|GenericName|Comment|Keywords)=', re.M),
    '.metainfo.xml.in': re.compile(r'<(?:summary|p|name)>'),
    '.gschema.xml': re.compile(r'<(?:summary|description)'),
}

MARKER = re.compile(r'\b(?:N?C?_|n?gettext)\s*\(')
TEXT = re.compile(r'\s*"(?:[^"\\]|\\.)*"')
MACRO = re.compile(r'\s*[A-Z]\w+')


def has_words(path):
    for suffix, pattern in MARKED.items():
        if path.name.endswith(suffix):
            text = path.read_text(encoding='utf-8')
            text = without_comments(text) if suffix in ('.c', '.h') else text
            # A macro that is being defined marks nothing yet.
            text = re.sub(r'^[ \t]*#[ \t]*define\b.*$', '', text, flags=re.M)
            return bool(pattern.search(text))
    return False


def joined_lines(text):
    """The lines on which a marked text goes on as a macro."""
    text = without_comments(text)
    for marker in MARKER.finditer(text):
        end = marker.end()
        piece = TEXT.match(text, end)
        while piece:
            end = piece.end()
            if MACRO.match(text, end):
                yield text.count('\n', 0, end) + 1
            comma = re.compile(r'\s*,').match(text, end)
            piece = TEXT.match(text, comma.end() if comma else end)


def wanted(root):
    found = [path for folder in ('data', 'src') for path in (root / folder).rglob('*')
             if path.is_file() and has_words(path)]
    return sorted(str(path.relative_to(root)) for path in found)


def faults_of(root):
    listed = (root / 'po' / 'POTFILES').read_text(encoding='utf-8').splitlines()
    listed = [line for line in listed if line and not line.startswith('#')]
    files = wanted(root)
    yield from (f'po/POTFILES: {name} has words to translate' for name in files
                if name not in listed)
    yield from (f'po/POTFILES: {name} is gone or has no words to translate' for name in listed
                if name not in files)
    for name in files:
        if name.endswith(('.c', '.h')):
            for line in joined_lines((root / name).read_text(encoding='utf-8')):
                yield f'{name}:{line}: a text joined with a macro cannot be collected'
    if sorted(set(listed)) != listed:
        yield 'po/POTFILES: not sorted, or something twice'


if __name__ == '__main__':
    top = pathlib.Path(sys.argv[1])
    if '--write' in sys.argv:
        (top / 'po' / 'POTFILES').write_text(''.join(name + '\n' for name in wanted(top)),
                                             encoding='utf-8')
    report(list(faults_of(top)))
