#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""self-test.py: every check passes a small clean tree and refuses each fault planted in it.

A check that cannot fail is worth nothing; this is the proof that ours can.
"""
import pathlib
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
LICENCE = '/* SPDX-License-Identifier: GPL-3.0-or-later */\n'
CLEAN = {
    'src/engine/model/rod-board.h': LICENCE + '''#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * RodBoard:
 * @cover_mm: visible width
 */
typedef struct
{
  double cover_mm;
} RodBoard;

/**
 * RodSide:
 * @ROD_SIDE_LEFT: left
 */
typedef enum
{
  ROD_SIDE_LEFT,
} RodSide;

/**
 * rod_board_count:
 * @self: a board
 * @each: called for each
 * @width_mm: to be covered
 *
 * Returns: how many are needed
 */
guint rod_board_count (const RodBoard *self,
                       void (*each) (int index),
                       double width_mm) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
''',
    'src/engine/model/rod-board.c': LICENCE + '''#include "config.h"

#include "engine/model/rod-board.h"

#include <glib/gi18n-lib.h>

/* #include <gtk/gtk.h> would be wrong, but a comment is no include. */
const char *
rod_board_name (void)
{
  return _ ("Board");
}
''',
    'src/sheets/rod-drawing-private.h': LICENCE + '#pragma once\n',
    'src/app/rod-window.c': LICENCE + '#include <gtk/gtk.h>\n\n#include "sheets/rod-drawing.h"\n',
    'po/POTFILES': 'src/engine/model/rod-board.c\n',
    'po/LINGUAS': 'de\n',
    'po/de.po': '''msgid ""
msgstr ""
"Project-Id-Version: x\\n"
"PO-Revision-Date: 2024-01-01 00:00+0000\\n"
"Last-Translator: x <x@example.org>\\n"
"Language-Team: x\\n"
"Language: de\\n"
"MIME-Version: 1.0\\n"
"Content-Type: text/plain; charset=UTF-8\\n"
"Content-Transfer-Encoding: 8bit\\n"

#, c-format
msgid "%d boards"
msgstr "%d Bretter"
''',
    'README.md': '# A house\n',
}
BOARD_H, BOARD_C = 'src/engine/model/rod-board.h', 'src/engine/model/rod-board.c'
# Check, file, text to replace (None: the whole file), replacement, words the complaint must hold.
PLANTED = (
    ('check-layers.py', BOARD_C, '<glib/gi18n-lib.h>', '<gtk/gtk.h>', 'gtk/gtk.h'),
    ('check-layers.py', BOARD_C, '<glib/gi18n-lib.h>', '<cairo.h>', 'cairo.h'),
    ('check-layers.py', BOARD_C, '#include <glib/', '# include /**/ <gdk/', 'gdk/'),
    ('check-layers.py', BOARD_C, '#include <glib/gi18n-lib.h>', '#include \\\n <gtk/gtk.h>', 'gtk'),
    ('check-layers.py', BOARD_C, '<glib/gi18n-lib.h>', '<time.h>', 'time.h'),
    ('check-layers.py', BOARD_C, '<glib/gi18n-lib.h>', 'ROD_HEADER', 'must name its header'),
    ('check-layers.py', BOARD_C, '"engine/model/', '"sheets/', 'sheets/rod-board.h'),
    ('check-layers.py', BOARD_C, '"engine/model/', '"engine/../app/', '../app'),
    ('check-layers.py', BOARD_C, '"engine/model/', '"', '"rod-board.h"'),
    ('check-layers.py', 'src/app/rod-window.c', 'drawing.h', 'drawing-private.h', 'private'),
    ('check-layers.py', 'src/app/rod-window.c', '"sheets/', '"cli/', 'cli/'),
    ('check-layers.py', 'src/other/x.c', None, LICENCE, 'not a layer'),
    ('check-headers.sh', 'src/engine/rod-lone.h', None, '#pragma once\nguint rod_lone (void);\n',
     'not self-contained'),
    ('check-format.sh', BOARD_H, '  double cover_mm;', 'double cover_mm;', 'clang-format'),
    ('check-docs.py', BOARD_H, ' * @self: a board\n', '', '@self'),
    ('check-docs.py', BOARD_H, ' * @each: called for each\n', '', '@each'),
    ('check-docs.py', BOARD_H, ' * @width_mm: to be covered', ' * Wide.', '@width_mm'),
    ('check-docs.py', BOARD_H, 'Returns:', 'It is', 'returns'),
    ('check-docs.py', BOARD_H, 'rod_board_count:', 'rod_board_sum:', 'comment of its own'),
    ('check-docs.py', BOARD_H, '@cover_mm: visible width', 'A board.', 'cover_mm'),
    ('check-docs.py', BOARD_H, '@ROD_SIDE_LEFT: left', 'A side.', 'ROD_SIDE_LEFT'),
    ('check-docs.py', BOARD_H, 'G_END_DECLS', 'void rod_x (void);\nG_END_DECLS', 'rod_x'),
    ('check-docs.py', BOARD_H, 'G_END_DECLS', 'typedef struct _RodX RodX;', 'RodX'),
    ('check-text.py', BOARD_C, LICENCE, '', 'licence'),
    ('check-text.py', 'README.md', 'A house', 'A' * 99, '101 characters'),
    ('check-text.py', 'README.md', 'house', 'house ', 'blanks'),
    ('check-text.py', 'README.md', 'A house', 'A\thouse', 'tab'),
    ('check-text.py', 'README.md', 'house', '/ho' + 'me/someone', 'one machine'),
    ('check-text.py', 'README.md', 'house', 'TO' + 'DO', 'undone'),
    ('check-text.py', 'README.md', 'house', 'issue' + ' #7', 'tracker'),
    ('check-text.py', 'README.md', 'house\n', 'house', 'no end'),
    ('check-potfiles.py', BOARD_C, '_ ("Board")', '"Board"', 'no words'),
    ('check-potfiles.py', 'src/app/rod-new.ui', None, '<x translatable="yes"/>\n', 'rod-new.ui'),
    ('check-potfiles.py', 'po/POTFILES', 'src', '# src', 'has words'),
    ('check-potfiles.py', BOARD_C, '"Board"', '"B" "%" G_GINT64_FORMAT', 'joined with a macro'),
    ('check-translations.sh', 'po/de.po', '%d Bretter', '%s Bretter', 'format spec'),
)


def run(check, root):
    command = [str(HERE / check), str(root)]
    command += ['engine', 'glib-2.0'] if check == 'check-headers.sh' else []
    result = subprocess.run(command, capture_output=True, text=True, check=False)
    return result.returncode, result.stdout + result.stderr


def plant(root, files):
    for name, text in files.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding='utf-8')
    style = HERE.parent.parent / '.clang-format'
    (root / '.clang-format').write_text(style.read_text(encoding='utf-8'), encoding='utf-8')
    (root / 'tests').mkdir(exist_ok=True)


def outcome(check, files, expected):
    """What is wrong with the check on these files; expected is None for a clean tree."""
    with tempfile.TemporaryDirectory() as folder:
        root = pathlib.Path(folder)
        plant(root, files)
        status, words = run(check, root)
    if status == 77:
        return None, True
    if expected is None:
        return (None if status == 0 else f'{check} refuses a clean tree: {words}'), False
    if status == 0 or expected not in words:
        return f'{check} does not see the fault "{expected}": {status} {words}', False
    return None, False


def with_fault(name, old, new):
    files = dict(CLEAN)
    if old is not None:
        if old not in files[name]:
            sys.exit(f'self-test: {name} has no {old!r} to replace')
        new = files[name].replace(old, new)
    files[name] = new
    return files


def main():
    cases = [(check, CLEAN, None) for check in sorted({row[0] for row in PLANTED})]
    cases += [(check, with_fault(name, old, new), expected)
              for check, name, old, new, expected in PLANTED]
    print(f'1..{len(cases)}')
    failed = False
    for number, (check, files, expected) in enumerate(cases, 1):
        wrong, skipped = outcome(check, files, expected)
        failed = failed or bool(wrong)
        print('not ok' if wrong else 'ok', number, check, expected or 'a clean tree',
              '# SKIP tool missing' if skipped else '', flush=True)
        if wrong:
            print('\n'.join('# ' + line for line in wrong.splitlines()))
    sys.exit(1 if failed else 0)


if __name__ == '__main__':
    main()
