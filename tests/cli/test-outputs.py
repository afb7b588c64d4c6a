#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test-outputs.py PROGRAM HOUSE [CLASS...]: what storeyrod-plan writes is whole and agrees.

The lists are read back with Python's csv module and compared with the plan file, and the plan file
with itself: cuts against stock, order against cuts, terms against results. Nothing here knows how
the program reckons.
"""
import csv
import json
import math
import os
import pathlib
import subprocess
import sys
import tempfile
import unittest

PROGRAM, HOUSE = map(os.path.abspath, sys.argv[1:3])
LISTS = ('battens', 'cutting', 'findings', 'joint-lines', 'order', 'pieces', 'trims')
# The lists are rounded to 0.1 mm, the plan to 0.001 mm.
HALF_STEP = 0.0506


def run(*arguments, status=(0, 1), **options):
    environment = dict(os.environ, SOURCE_DATE_EPOCH='1700000000', LC_ALL='C.UTF-8')
    environment.update(options.pop('environment', {}))
    done = subprocess.run([PROGRAM, *map(str, arguments)], env=environment, capture_output=True,
                          check=False, timeout=300, **options)
    if done.returncode not in status:
        raise AssertionError(f'exit status {done.returncode}: {done.stderr.decode()}')
    return done


def files_below(folder):
    folder = pathlib.Path(folder)
    return {str(path.relative_to(folder)): path.read_bytes()
            for path in folder.rglob('*') if path.is_file()}


class OneRun(unittest.TestCase):
    """The files of one run, shared by all tests of a class."""

    @classmethod
    def setUpClass(cls):
        cls.scratch = tempfile.TemporaryDirectory()
        cls.folder = pathlib.Path(cls.scratch.name)
        cls.done = run(HOUSE, '--out', cls.folder / 'first')
        cls.files = files_below(cls.folder / 'first')
        cls.plan = json.loads(cls.files['plan.json'])

    @classmethod
    def tearDownClass(cls):
        cls.scratch.cleanup()

    def rows(self, name):
        text = self.files[f'lists/{name}.csv'].decode('utf-8')
        return list(csv.DictReader(text.splitlines(keepends=True), strict=True))


class Agreement(OneRun):
    """Lists, summary and plan of one run say the same."""

    def test_everything_is_there(self):
        drawings = {name for name in self.files if name.startswith('surfaces/')}
        expected = {'sheets.pdf', 'plan.json', *(f'lists/{name}.csv' for name in LISTS)}
        self.assertEqual(set(self.files) - drawings, expected)
        self.assertEqual(len(drawings), len(self.plan['faces']))
        self.assertTrue(self.files['sheets.pdf'].startswith(b'%PDF-'))
        self.assertTrue(self.files['sheets.pdf'].rstrip().endswith(b'%%EOF'))
        for name in drawings:
            self.assertIn(b'</svg>', self.files[name][-16:], name)

    def test_it_says_where(self):
        printed = self.done.stdout.decode()
        for name in ('sheets.pdf', 'surfaces', 'lists', 'plan.json'):
            self.assertIn(f'{self.folder}/first/{name}\n', printed)
        self.assertEqual(self.done.stderr, b'')

    def test_exit_status_follows_the_findings(self):
        must = any(finding['severity'] == 'must' for finding in self.plan['findings'])
        self.assertEqual(self.done.returncode, int(must))
        check = run(HOUSE, '--check')
        self.assertEqual(check.returncode, int(must))
        printed = ' '.join(check.stdout.decode().split())
        for finding in self.plan['findings']:
            self.assertIn(' '.join(finding['text'].split()), printed)
            self.assertIn(' '.join(finding['remedy'].split()), printed)

    def test_summary_counts(self):
        printed = ' '.join(self.done.stdout.decode().split())
        for cutting in self.plan['cutting']:
            if cutting['kind'] == 'board':
                self.assertIn(f'{len(cutting["items"])} piece', printed)
        area = sum(field['clad_m2'] for field in self.plan['fields'])
        self.assertIn(f'{area:.1f} m² net', printed)
        self.assertIn(f'{self.plan["total"]:.2f} with spares', printed)

    def test_csv_is_rfc_4180(self):
        for name in LISTS:
            text = self.files[f'lists/{name}.csv']
            self.assertTrue(text.endswith(b'\r\n'), name)
            self.assertFalse(text.startswith(b'\xef\xbb\xbf'), name)
            rows = list(csv.reader(text.decode().splitlines(keepends=True), strict=True))
            self.assertEqual({len(row) for row in rows}, {len(rows[0])}, name)

    def test_pieces_list(self):
        rows = self.rows('pieces')
        self.assertGreater(len(rows), 0)
        self.assertEqual([row['mark'] for row in rows],
                         [piece['mark'] for piece in self.plan['pieces']])
        for row, piece in zip(rows, self.plan['pieces']):
            field = self.plan['fields'][piece['field']]
            self.assertEqual(row['surface'], field['face'])
            for name in ('length_mm', 'short_mm', 'width_mm'):
                self.assertAlmostEqual(float(row[name]), piece[name], delta=HALF_STEP)
            for side in ('left', 'right'):
                self.assertAlmostEqual(float(row[f'{side}_gap_mm']), piece[side]['gap_mm'],
                                       delta=HALF_STEP)
            self.assertAlmostEqual(float(row['rip_low_mm']), piece['low_mm'], delta=HALF_STEP)
            self.assertEqual(int(row['screws']), piece['screws'])
            self.assertEqual(row['notches'].count(' at '), len(piece['notches']))

    def test_cutting_list(self):
        rows = iter(self.rows('cutting'))
        for cutting in self.plan['cutting']:
            for number, bar in enumerate(cutting['bars'], 1):
                end = 0.0
                for place, index in enumerate(bar['items'], 1):
                    row, item = next(rows), cutting['items'][index]
                    self.assertEqual((row['kind'], row['article'], int(row['bar'])),
                                     (cutting['kind'], cutting['article'], number))
                    self.assertEqual((row['label'], int(row['length_mm']), int(row['cut'])),
                                     (item['label'], item['length_mm'], place))
                    self.assertGreaterEqual(float(row['from_mm']), end)
                    end = float(row['to_mm'])
                    self.assertEqual(end - float(row['from_mm']), item['length_mm'])
                self.assertLessEqual(end, int(row['stock_mm']))
        self.assertIsNone(next(rows, None))

    def test_every_item_is_cut_once_from_stock(self):
        house = json.loads(pathlib.Path(HOUSE).read_bytes())
        saw = {'kerf_mm': 3.0, 'end_trim_mm': 0.0, **house.get('saw', {})}
        for cutting in self.plan['cutting']:
            cut = [index for bar in cutting['bars'] for index in bar['items']]
            self.assertEqual(sorted(cut), list(range(len(cutting['items']))))
            self.assertEqual(cutting['used_mm'],
                             sum(item['length_mm'] for item in cutting['items']))
            stock = [cutting['stock'][bar['stock']]['length_mm'] for bar in cutting['bars']]
            self.assertEqual(cutting['bought_mm'], sum(stock))
            for length, bar in zip(stock, cutting['bars']):
                used = sum(cutting['items'][index]['length_mm'] for index in bar['items'])
                used += (len(bar['items']) - 1) * saw['kerf_mm'] + 2 * saw['end_trim_mm']
                self.assertLessEqual(used + bar['rest_mm'], length)
            self.assertLessEqual(cutting['bound'], cutting['cost'])
            self.assertEqual(cutting['proven'], cutting['bound'] == cutting['cost'])

    def test_every_board_is_cut(self):
        lengths = {piece['mark']: piece['length_mm'] for piece in self.plan['pieces']}
        self.assertEqual(len(lengths), len(self.plan['pieces']), 'marks are not unique')
        items = [item for cutting in self.plan['cutting'] if cutting['kind'] == 'board'
                 for item in cutting['items']]
        self.assertEqual(sorted(item['label'] for item in items), sorted(lengths))
        for item in items:
            # Whole millimetres, rounded up, but not for the sake of a rounding error.
            self.assertEqual(item['length_mm'], math.ceil(lengths[item['label']] - 1e-3))

    def test_order_list(self):
        rows = self.rows('order')
        self.assertEqual(len(rows), len(self.plan['order']))
        for row, line in zip(rows, self.plan['order']):
            for name in ('needed', 'spare', 'ordered', 'pack', 'packs'):
                self.assertEqual(int(row[name]), line[name])
            self.assertAlmostEqual(float(row['total']), line['total'], places=2)
            self.assertEqual(row['length_mm'] == '', 'length_mm' not in line)
            self.assertGreaterEqual(line['ordered'], line['needed'] + line['spare'])
            self.assertEqual(line['ordered'], line['packs'] * line['pack'])
        self.assertAlmostEqual(sum(line['total'] for line in self.plan['order']),
                               self.plan['total'], places=2)

    def test_order_follows_the_cuts(self):
        for cutting in self.plan['cutting']:
            for index, stock in enumerate(cutting['stock']):
                bars = sum(bar['stock'] == index for bar in cutting['bars'])
                lines = [line for line in self.plan['order']
                         if all(line.get(name) == cutting.get(name)
                                for name in ('kind', 'system', 'article', 'colour'))
                         and line.get('length_mm') == stock['length_mm']]
                if not stock['owned']:
                    self.assertEqual(bars, sum(line['needed'] for line in lines))

    def test_screws_are_ordered(self):
        screws = sum(piece['screws'] for piece in self.plan['pieces'])
        screws += sum(trim['screws'] for trim in self.plan['trims'])
        ordered = sum(line['needed'] for line in self.plan['order'] if line['kind'] == 'fixing')
        self.assertEqual(ordered, screws)

    def test_trim_and_batten_lists(self):
        for name in ('trims', 'battens'):
            rows = self.rows(name)
            self.assertEqual(len(rows), len(self.plan[name]))
            for row, entry in zip(rows, self.plan[name]):
                self.assertAlmostEqual(float(row['length_mm']), entry['length_mm'],
                                       delta=HALF_STEP)
                self.assertAlmostEqual(float(row['to_x_mm']), entry['to'][0], delta=HALF_STEP)
                self.assertAlmostEqual(math.dist(entry['from'], entry['to']), entry['length_mm'],
                                       delta=0.002 if name == 'battens' else math.inf)

    def test_joint_line_list(self):
        lines = [(field, line) for group in self.plan['groups'] for index in group['fields']
                 for field in [self.plan['fields'][index]] for line in field['joint_lines']]
        rows = self.rows('joint-lines')
        self.assertEqual(len(rows), len(lines))
        for row, (field, line) in zip(rows, lines):
            self.assertEqual((row['surface'], int(row['line'])), (field['face'], line['line']))
            self.assertAlmostEqual(float(row['place_mm']), line['place_mm'], delta=HALF_STEP)
            self.assertEqual(row['height_mm'] == '', 'height_mm' not in line)

    def test_joint_lines_border_the_courses(self):
        for piece in self.plan['pieces']:
            field = self.plan['fields'][piece['field']]
            lines = {line['line']: line['across_mm'] for line in field['joint_lines']}
            pitch = self.plan['groups'][field['group']]['pitch_mm']
            if piece['low_mm'] < 1e-3 and field['group_scale'] in (1, -1):
                self.assertIn(piece['course'] - 1, lines, piece['mark'])
            if piece['high_mm'] > pitch - 1e-3 and field['group_scale'] in (1, -1):
                self.assertIn(piece['course'], lines, piece['mark'])

    def test_reckonings_add_up(self):
        def reckonings(value, path='$'):
            if isinstance(value, dict):
                if 'terms' in value:
                    yield path, value
                for name, member in value.items():
                    yield from reckonings(member, f'{path}.{name}')
            elif isinstance(value, list):
                for index, member in enumerate(value):
                    yield from reckonings(member, f'{path}[{index}]')

        found = 0
        for path, reckoning in reckonings(self.plan):
            found += 1
            terms = sum(term['value'] for term in reckoning['terms'])
            # Each term is rounded to 0.001 mm.
            self.assertAlmostEqual(terms, reckoning['result'], msg=path,
                                   delta=0.0005 * (len(reckoning['terms']) + 1) + 1e-9)
        self.assertGreater(found, 4 * len(self.plan['pieces']))
        for piece in self.plan['pieces']:
            self.assertAlmostEqual(piece['length_reckoning']['result'], piece['length_mm'],
                                   delta=0.0011, msg=piece['mark'])
            for side in ('left', 'right'):
                self.assertAlmostEqual(piece[side]['gap_reckoning']['result'],
                                       piece[side]['gap_mm'], delta=0.0011, msg=piece['mark'])

    def test_findings_list(self):
        rows = self.rows('findings')
        self.assertEqual([(row['severity'], row['id'], row['rule']) for row in rows],
                         [(finding['severity'], finding['id'], finding['rule'])
                          for finding in self.plan['findings']])
        order = ['must', 'should', 'note']
        ranks = [order.index(row['severity']) for row in rows]
        self.assertEqual(ranks, sorted(ranks))


class Repetition(OneRun):
    """The same house gives the same bytes, however it is asked for."""

    def test_twice_gives_the_same_bytes(self):
        run(HOUSE, '--out', self.folder / 'second')
        self.assertEqual(files_below(self.folder / 'second'), self.files)
        run(HOUSE, '--out', self.folder / 'second')
        self.assertEqual(files_below(self.folder / 'second'), self.files)

    def test_each_output_on_its_own(self):
        alone = self.folder / 'alone'
        run(HOUSE, '--sheets', alone / 'a' / 'sheets.pdf')
        run(HOUSE, '--lists', alone / 'a' / 'lists')
        run(HOUSE, '--svg', alone / 'a' / 'surfaces')
        run(HOUSE, '--plan', alone / 'a' / 'plan.json')
        self.assertEqual(files_below(alone / 'a'), self.files)

    def test_drawings_of_surfaces_that_are_gone_go_too(self):
        folder = self.folder / 'gone'
        run(HOUSE, '--svg', folder)
        kept = files_below(folder)
        mark = self.plan['faces'][0]['mark']
        ours = kept[f'{mark}.svg']
        name = json.loads(pathlib.Path(HOUSE).read_bytes())['name'].encode()
        others = {
            'notes.txt': ours,
            'sketch.svg': b'<svg xmlns="http://www.w3.org/2000/svg"/>',
            'neighbour.svg': ours.replace(name, b'Another house'),
        }
        (folder / 'OLD.svg').write_bytes(ours)
        for other, text in others.items():
            (folder / other).write_bytes(text)
        (folder / 'link.svg').symlink_to(folder / f'{mark}.svg')
        run(HOUSE, '--svg', folder)
        self.assertTrue((folder / 'link.svg').is_symlink())
        (folder / 'link.svg').unlink()
        self.assertEqual(files_below(folder), kept | others)

    def test_standard_input_and_output(self):
        house = pathlib.Path(HOUSE).read_bytes()
        done = run('-', '--plan', '-', input=house, cwd=pathlib.Path(HOUSE).parent)
        self.assertEqual(done.stdout, self.files['plan.json'])

    def test_german_numbers_stay_out_of_files(self):
        if os.environ.get('ROD_TEST_DECIMAL_POINT') != ',':
            self.skipTest('no German locale')
        german = {name: os.environ[name] for name in ('LC_ALL', 'LANGUAGE', 'LOCPATH')}
        done = run(HOUSE, '--out', self.folder / 'german', environment=german)
        # The locale is in force: the summary has it.
        self.assertRegex(done.stdout.decode(), r'\d,\d m²')
        files = files_below(self.folder / 'german')
        for name in ('plan.json', *(f'lists/{name}.csv' for name in LISTS)):
            self.assertEqual(files[name], self.files[name], name)


class Failures(unittest.TestCase):
    """A failure leaves nothing behind and the old file as it was."""

    def setUp(self):
        scratch = tempfile.TemporaryDirectory()
        self.addCleanup(scratch.cleanup)
        self.folder = pathlib.Path(scratch.name)

    def test_file_too_large(self):
        target = self.folder / 'plan.json'
        for option, name in (('--plan', 'plan.json'), ('--sheets', 'sheets.pdf')):
            target = self.folder / name
            target.write_text('old')
            limited = f'ulimit -f 2; trap "" XFSZ; exec "$0" "$@"'
            done = subprocess.run(['sh', '-c', limited, PROGRAM, HOUSE, option, str(target)],
                                  capture_output=True, text=True, check=False)
            self.assertEqual(done.returncode, 2, done.stderr)
            self.assertRegex(done.stderr, rf'^storeyrod-plan: {target}: cannot be written: .*\n$')
            self.assertEqual(target.read_text(), 'old')
            self.assertEqual({path.name for path in self.folder.iterdir()} -
                             {'plan.json', 'sheets.pdf'}, set())

    def test_device(self):
        done = run(HOUSE, '--plan', '/dev/full', status=(2,))
        self.assertIn(b'/dev/full: cannot be written: ', done.stderr)
        self.assertTrue(pathlib.Path('/dev/full').is_char_device())

    def test_full_standard_output(self):
        for arguments in ([HOUSE], [HOUSE, '--check'], [HOUSE, '--plan', '-'], ['--help']):
            with open('/dev/full', 'wb') as full:
                done = subprocess.run([PROGRAM, *arguments], stdout=full, stderr=subprocess.PIPE,
                                      check=False)
            self.assertEqual(done.returncode, 2, arguments)
            self.assertIn(b'standard output: cannot be written', done.stderr)


if __name__ == '__main__':
    unittest.main(argv=[sys.argv[0], '-v', *sys.argv[3:]])
