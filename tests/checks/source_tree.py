# SPDX-License-Identifier: GPL-3.0-or-later
"""What the checks share: which files belong to the project, and how C is stripped of comments."""
import pathlib
import re
import subprocess
import sys

FOLDERS = ('src', 'data', 'po', 'tests', 'examples', 'docs', '.ci')


def project_files(root, suffixes=None):
    """Yields the project's own files below root, sorted; never a build or a rendered result."""
    root = pathlib.Path(root)
    found = [path for path in root.iterdir() if path.is_file()]
    for folder in FOLDERS:
        found += [path for path in (root / folder).rglob('*') if path.is_file()]
    ignored = ignored_by_git(root, found)
    for path in sorted(found):
        if path in ignored or '__pycache__' in path.parts or path.suffix == '.pyc':
            continue
        if suffixes is None or path.name.endswith(tuple(suffixes)):
            yield path


def ignored_by_git(root, paths):
    """The paths that .gitignore leaves out; none where there is no git or no repository."""
    if not (root / '.git').exists():
        return set()
    names = '\0'.join(str(path.relative_to(root)) for path in paths)
    try:
        listed = subprocess.run(['git', '-C', str(root), 'check-ignore', '-z', '--stdin'],
                                input=names, capture_output=True, text=True, check=False)
    except FileNotFoundError:
        return set()
    return {root / name for name in listed.stdout.split('\0') if name}


def without_comments(text):
    """C source with every comment blanked; line numbers and strings stay as they are."""
    pattern = re.compile(r'"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'|//[^\n]*|/\*.*?\*/', re.S)

    def blank(match):
        token = match.group(0)
        return re.sub(r'[^\n]', ' ', token) if token.startswith('/') else token

    return pattern.sub(blank, text)


def report(faults):
    """Prints the faults and ends the program, with failure if there are any."""
    for fault in faults:
        print(fault)
    sys.exit(1 if faults else 0)
