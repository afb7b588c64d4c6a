#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""check-docs.py ROOT: every public function and type of engine and sheets states its contract.

A prototype is directly preceded by a comment that begins with its name, describes each parameter
and, where something is returned, what. A type with members speaks of each of them; an opaque type
is described in some public header. Private headers and what GObject generates are left out.
"""
import pathlib
import re
import sys

from source_tree import report, without_comments

LAYERS = ('engine', 'sheets')
COMMENT = re.compile(r'/\*\*\n \* (?P<name>\w+):(?P<text>.*?)\*/\s*\Z', re.S)
DESCRIBED = re.compile(r'/\*\*\n \* (\w+):')
BODY_OR_END = re.compile(r'\{[^{}]*(?:\{[^{}]*\}[^{}]*)*\}|;')
TYPE = re.compile(r'(?:typedef\s+)?(?P<kind>struct|union|enum)\b\s*(?P<tag>\w+)?\s*'
                  r'(?P<body>\{.*\})?\s*(?P<name>\w+)?\s*;', re.S)
FUNCTION = re.compile(r'(?P<type>[\w\s*]+?)\b(?P<name>\w+)\s*\((?P<parameters>.*?)\)\s*[;{]', re.S)
ATTRIBUTES = re.compile(r'\bG_GNUC_\w+(?:\s*\([^)]*\))?|\b(?:static|inline|extern|const)\b')
# The error parameter means the same everywhere; the first member of a derived type is its parent.
UNDERSTOOD = ('error', 'record', 'parent_instance', 'parent_class')


def blank(match):
    return re.sub(r'[^\n]', ' ', match.group(0))


def statements(text):
    """Yields (start, statement) for each declaration outside braces, ignoring the preprocessor."""
    code = re.sub(r'^[ \t]*#(?:.*\\\n)*.*$', blank, without_comments(text), flags=re.M)
    code = re.sub(r'\bG_(?:BEGIN|END)_DECLS\b', blank, code)
    start = 0
    for match in BODY_OR_END.finditer(code):
        is_type = re.search(r'\b(?:struct|union|enum)\b[^;()]*$', code[start:match.start()])
        if match.group(0) != ';' and is_type:
            continue  # the statement goes on to its name
        statement = code[start:match.end()]
        yield start + len(statement) - len(statement.lstrip()), statement.strip()
        start = match.end()


def comment_before(text, start):
    """The documentation comment that ends right before start; None if there is none."""
    begin = text.rfind('/**\n', 0, start)
    return COMMENT.match(text[begin:start]) if begin >= 0 else None


def declared_names(declarators):
    """The names in a list of parameters or members; a function pointer is named by its own name."""
    parts, depth = [''], 0
    for char in declarators:
        depth += (char == '(') - (char == ')')
        if char == ',' and depth == 0:
            parts.append('')
        else:
            parts[-1] += char
    names = []
    for part in parts:
        pointer = re.search(r'\(\s*\*\s*(\w+)', part)
        plain = re.search(r'(\w+)\s*(?:\[[^\]]*\]\s*)*(?::\s*\d+\s*)?$', part)
        name = pointer or plain
        if name and part.strip() not in ('void', '...') and name.group(1) not in UNDERSTOOD:
            names.append(name.group(1))
    return names


def faults_of_function(match, comment):
    text = comment.group('text') if comment else ''
    if not comment or comment.group('name') != match.group('name'):
        yield 'has no comment of its own'
        return
    for name in declared_names(match.group('parameters')):
        if not re.search(rf'@{name}\b', text):
            yield f'does not describe @{name}'
    if match.group('type').strip() != 'void' and 'Returns:' not in text:
        yield 'does not say what it returns'


def faults_of_type(name, match, comment):
    if not comment or comment.group('name') != name:
        yield 'has no comment of its own'
        return
    body = match.group('body')[1:-1]
    if match.group('kind') == 'enum':
        members = re.findall(r'\b([A-Z]\w+)\s*(?:=[^,]*)?(?:,|\s*$)', body)
    else:
        flat = re.sub(r'\{[^{}]*\}', '', body)
        members = [name for line in flat.split(';') for name in declared_names(line)]
    for member in members:
        if not re.search(rf'\b{member}\b', comment.group('text')):
            yield f'does not speak of {member}'


def faults_of_statement(text, start, statement, described):
    """Yields (name, fault) for one declaration."""
    comment = comment_before(text, start)
    kind = TYPE.fullmatch(statement)
    if kind:
        name = kind.group('name') or (kind.group('tag') or '').lstrip('_')
        if kind.group('body'):
            for fault in faults_of_type(name, kind, comment):
                yield name, fault
        elif name not in described:
            yield name, 'is described nowhere'
        return
    plain = re.sub(ATTRIBUTES, '', statement)
    function = FUNCTION.match(plain)
    if not function or plain.startswith('typedef') or \
            re.match(r'G_(?:DEFINE|DECLARE)_|.*_(?:get_type|error_quark)$', function.group('name')):
        return
    for fault in faults_of_function(function, comment):
        yield function.group('name'), fault


def faults_below(root):
    root = pathlib.Path(root)
    headers = [path for layer in LAYERS for path in sorted((root / 'src' / layer).rglob('*.h'))
               if not path.name.endswith('-private.h')]
    texts = {path: path.read_text(encoding='utf-8') for path in headers}
    described = {name for text in texts.values() for name in DESCRIBED.findall(text)}
    for path, text in texts.items():
        for start, statement in statements(text):
            line = text.count('\n', 0, start) + 1
            for name, fault in faults_of_statement(text, start, statement, described):
                yield f'{path.relative_to(root)}:{line}: {name} {fault}'


if __name__ == '__main__':
    report(list(faults_below(sys.argv[1])))
