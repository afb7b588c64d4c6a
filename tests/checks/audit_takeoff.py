# SPDX-License-Identifier: GPL-3.0-or-later
"""Frame, trims, screws, joins, cutting lists, order and reckonings of a plan, counted again."""
from collections import Counter
from fractions import Fraction
from math import ceil, floor, hypot, inf

from audit_boards import LEVEL_MM, Piece, segment_in_piece
from audit_geometry import at_height, distance, shifted

# Sums of numbers that were rounded to three decimals one by one.
SUM_MM = 0.0006
TRIM_REACH_MM = 60
# No screw nearer the end of a flange: about two shanks; from memory.
SCREW_END_MM = 7.5
TRIM_MM = 0.25


# Whether a batten that ends at a joint line reaches it is a matter of rounding.
END_MM = 0.06


def crossing_x(batten, y, beyond=0.001):
    """Where a batten's centre line crosses the level line y; None where it does not reach it."""
    (ax, ay), (bx, by) = batten
    if abs(by - ay) < 1e-6 or not min(ay, by) - beyond <= y <= max(ay, by) + beyond:
        return None
    return ax + (y - ay) / (by - ay) * (bx - ax)


class FrameAudit:
    """Battens under pieces, and the screws through flanges."""

    def __init__(self, house, index, field, pieces, segments, report):
        self.field, self.pieces, self.segments, self.report = field, pieces, segments, report
        self.battens = [(field.to_board(b['from']), field.to_board(b['to']))
                        for b in house.plan['battens'] if b['field'] == index and not b['counter']]
        self.few = any(f['id'] == 'few-battens' and f.get('face') == field.plan['face']
                       for f in house.plan['findings'])

    def run(self):
        system, rules = self.field.system, self.field.rules
        soffit = self.field.face.kind == 'soffit'
        centres = rules['soffit_centres_mm' if soffit else 'batten_centres_mm']
        for piece in self.pieces:
            spans = piece.spans_at((piece.bottom + piece.top) / 2)
            middle = spans[-1][1] - spans[0][0] if spans else 0
            needed = 1 if middle < 2 * system.batten['width_mm'] else 2
            under = [b for b in self.battens if segment_in_piece(piece, *b) > 0.5]
            if len(under) < needed and not self.few:
                self.report.fault(f'{piece.mark}: lies on {len(under)} battens')
            if len(under) >= 2 and piece.top - piece.bottom >= system.batten['width_mm']:
                self.check_centres(piece, centres)
            self.check_screws(piece)

    def check_centres(self, piece, centres):
        """On one level line at least, battens are no further apart than the rule: notches and the
        air over a head break the others."""
        widest = []
        for share in (0.1, 0.5, 0.9):
            y = piece.bottom + share * (piece.top - piece.bottom)
            places = sorted(x for x in (crossing_x(b, y) for b in self.battens) if x is not None)
            gaps = [0]
            for low, high in piece.spans_at(y):
                under = [x for x in places if low <= x <= high]
                gaps += [b - a for a, b in zip(under, under[1:])]
            widest.append(max(gaps))
        if min(widest) > centres + 0.01:
            self.report.fault(f'{piece.mark}: battens {min(widest):.1f} apart')

    def check_screws(self, piece):
        """F5: where the flange has room above the joint line, one at each batten."""
        board = self.field.board
        flange = board.get('flange_mm', 0)
        line = piece.data_line(self.field)
        stretches = []
        if flange > 0:
            blocked = self.blocked(line, line + flange)
            for a, b in piece.level_sides(line):
                stretches += open_stretches(a, b, blocked)
        kept = sum(b - a for a, b in stretches)
        if abs(kept - piece.data['flange_mm']) > 0.1 * max(1, len(stretches)) + 0.1:
            flange = piece.data['flange_mm']
            self.report.fault(f'{piece.mark}: flange {flange}, reckoned {kept:.2f}')
        least, most = (
            sum(x is not None and any(a + near <= x <= b - near for a, b in stretches)
                for x in (crossing_x(batten, line, beyond) for batten in self.battens))
            for near, beyond in ((SCREW_END_MM + 0.01, -END_MM), (SCREW_END_MM - 0.01, END_MM)))
        if not least <= piece.data['screws'] <= most:
            self.report.fault(f'{piece.mark}: {piece.data["screws"]} screws, counted {most}')

    def blocked(self, low, high):
        found = []
        for a, b, _, _ in self.segments:
            if max(abs(a[1] - low), abs(b[1] - low)) < 0.06 and b[0] < a[0]:
                # The area ends at the joint line itself.
                found.append((b[0], a[0]))
            if max(a[1], b[1]) <= low + 0.05 or min(a[1], b[1]) >= high - 0.05:
                continue
            xs = [p[0] for p in (a, b) if low <= p[1] <= high]
            for y in (low, high):
                if (a[1] - y) * (b[1] - y) < 0:
                    xs.append(at_height((a, b), y))
            if max(xs) - min(xs) > 0.05:
                found.append((min(xs), max(xs)))
        return sorted(found)


def open_stretches(low, high, blocked):
    stretches = []
    for a, b in blocked:
        if b <= low or a >= high:
            continue
        if a - low > 0.1:
            stretches.append((low, a))
        low = max(low, b)
    if high - low > 0.1:
        stretches.append((low, high))
    return stretches


def data_line(piece, field):
    """The joint line above a piece."""
    low = piece.part.line if piece.part else piece.bottom
    return low + field.board['cover_mm']


def level_sides(piece, y):
    for a, b in ((a, b) for ring in piece.rings[:1] for a, b in zip(ring, ring[1:] + ring[:1])):
        if abs(a[1] - y) < 0.06 and abs(b[1] - y) < 0.06:
            yield min(a[0], b[0]), max(a[0], b[0])


Piece.data_line = data_line
Piece.level_sides = level_sides


def off_line(a, b, point):
    """How far a point lies off the endless line through two others."""
    length = distance(a, b)
    across = (b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0])
    return abs(across) / length if length else inf


class Runs:
    """Trims against the boundary that they are to follow."""

    def __init__(self, house, report):
        self.house, self.report, self.plan = house, report, house.plan
        self.lengths = {}  # id(field) -> key -> boundary as [(from, to) along the edge]
        for field in house.fields:
            by_key = {}
            for a, b, _, keys in field.region('clad').segments:
                by_key.setdefault(keys[0], []).append((a, b))
            self.lengths[id(field)] = by_key

    def length(self, field, key):
        return sum(distance(a, b) for a, b in self.lengths[id(field)].get(key, []))

    def run(self):
        placed = {}
        for run in self.plan['trims']:
            field = self.house.fields[run['field']]
            if 'edge' in run:
                key = list(field.edges)[run['edge']]
                placed.setdefault((id(field), key), []).append(run)
                self.check_place(field, key, run)
        for field in self.house.fields:
            for key, edge in field.edges.items():
                self.check_edge(field, key, edge, placed.get((id(field), key), []))
        self.check_screws()

    def check_place(self, field, key, run):
        """The run's ends lie on the boundary that it serves; a corner's trim may go on in line as
        far as the other wall needs it."""
        shared = self.is_shared(field.edges[key])
        for end in (run['from'], run['to']):
            near = min([off_line(a, b, end) if shared else distance_to_line(a, b, end)
                        for a, b in self.lengths[id(field)].get(key, [])] or [inf])
            if near > TRIM_MM:
                mark = field.plan['face']
                self.report.fault(f'{mark}: trim {run["trim"]} ends {near:.2f} off {key}')

    @staticmethod
    def is_shared(edge):
        """Whether one two-sided trim serves this edge and the one round the corner."""
        if not edge.partner or not edge.trim or not edge.trim.get('two_sided'):
            return False
        other, other_key = edge.partner
        facing = other.fields[0].edges[other_key].trim
        return bool(facing and facing.get('two_sided'))

    def check_edge(self, field, key, edge, runs):
        mark = field.plan['face']
        length = self.length(field, key)
        if edge.rule is None:
            missing = length > 0.2 and not edge.trimless and edge.zone is None
            if missing and not any(f['id'] == 'no-trim' and f.get('face') == mark
                                   for f in self.plan['findings']):
                self.report.fault(f'{mark}: no trim along {key} and no finding')
            return
        if edge.zone is not None and edge.turned:
            length = 0
        sums = Counter()
        for run in runs:
            sums[run['trim']] += run['length_mm']
        for beside in edge.rule.get('beside', []):
            self.expect(mark, key, beside, sums.pop(beside, 0), length)
        if edge.trim is None:
            pass
        elif edge.trim.get('two_sided') and edge.partner:
            self.check_corner(field, key, edge, sums.pop(edge.trim['id'], 0), length)
        else:
            self.expect(mark, key, edge.trim['id'], sums.pop(edge.trim['id'], 0), length)
        for trim in sums:
            self.report.fault(f'{mark}: {trim} along {key}, which the table does not ask for')

    def expect(self, mark, key, trim, found, length):
        self.report.count('edges with trims')
        if abs(found - length) > TRIM_MM:
            self.report.fault(f'{mark}: {found:.1f} mm of {trim} along {key}, '
                              f'boundary {length:.1f}')

    def check_corner(self, field, key, edge, found, length):
        """One trim serves both sides of a corner: one side carries it along its whole boundary,
        the other none, unless its trim serves one side only."""
        other, other_key = edge.partner
        facing = other.fields[0].edges[other_key]
        mark = field.plan['face']
        if not facing.trim or not facing.trim.get('two_sided'):
            self.expect(mark, key, edge.trim['id'], found, length)
            return
        own_all = sum(self.length(f, key) for f in field.face.fields)
        other_all = sum(self.length(f, other_key) for f in other.fields)
        if found > TRIM_MM and not length - TRIM_MM <= found <= length + other_all + TRIM_MM:
            self.report.fault(f'{mark}: {found:.1f} mm of {edge.trim["id"]} along {key}, '
                              f'boundary {length:.1f} and {other_all:.1f} round the corner')
        index = {id(f): i for i, f in enumerate(self.house.fields)}

        def carried(face, face_key):
            return sum(run['length_mm'] for run in self.plan['trims'] for f in face.fields
                       if run['field'] == index[id(f)] and 'edge' in run and
                       list(f.edges)[run['edge']] == face_key and
                       run['trim'] == f.edges[face_key].trim['id'])
        both = carried(field.face, key), carried(other, other_key)
        if min(both) > TRIM_MM:
            self.report.fault(f'{mark}: both sides of {key} carry a two-sided trim')
        elif max(both) < max(own_all, other_all) - TRIM_MM and edge.opening is None and \
                field.face.parent is None and other.parent is None:
            longest = max(own_all, other_all)
            self.report.fault(f'{mark}: {max(both):.1f} mm of trim for {longest:.1f} mm of corner '
                              f'at {key}')
        elif max(both) < TRIM_MM and max(own_all, other_all) > TRIM_MM:
            self.report.fault(f'{mark}: no side of {key} carries its trim')

    def check_screws(self):
        battens = {}
        for b in self.plan['battens']:
            if not b['counter']:
                battens.setdefault(b['field'], []).append((b['from'], b['to']))
        for run in self.plan['trims']:
            field = self.house.fields[run['field']]
            trim = field.system.trim(run['trim'])
            kind = trim.get('screws', 'per-batten')
            if kind == 'per-batten' and self.has_own_batten(run, battens.get(run['field'], [])):
                kind = 'spaced'
            if kind == 'spaced':
                between = run['length_mm'] - 2 * trim.get('screw_end_mm', 50)
                count = 1 if between <= 0 else \
                    ceil(between / trim.get('screw_spacing_mm', 300) - 1e-6) + 1
            elif kind == 'none':
                count = 0
            else:
                self.check_at_battens(run, battens.get(run['field'], []))
                continue
            if run['screws'] != count:
                self.report.fault(f'{field.plan["face"]}: {run["screws"]} screws in {run["trim"]} '
                                  f'of {run["length_mm"]}, counted {count}')

    @staticmethod
    def has_own_batten(run, battens):
        """A raked trim with a batten along it, where those it would cross stop short."""
        a, b = run['from'], run['to']
        if min(abs(a[0] - b[0]), abs(a[1] - b[1])) < 0.1:
            return False
        return any(all(abs(offset(a, b, end)) < TRIM_REACH_MM + 0.01 for end in batten) and
                   abs(offset(a, b, batten[0]) - offset(a, b, batten[1])) < 0.1
                   for batten in battens)

    def check_at_battens(self, run, battens):
        """One at each batten that the run's line crosses or nearly reaches."""
        (ax, ay), (bx, by) = run['from'], run['to']
        length = hypot(bx - ax, by - ay)
        sure = maybe = 0
        for (cx, cy), (dx, dy) in battens:
            sc = ((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) / length
            sd = ((bx - ax) * (dy - ay) - (by - ay) * (dx - ax)) / length
            if abs(sc - sd) < 1:
                continue
            t = sc / (sc - sd)
            reach = max(-t, t - 1, 0) * abs(sc - sd)
            x, y = cx + t * (dx - cx), cy + t * (dy - cy)
            along = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length
            inside = 0.01 <= along <= length - 0.01
            sure += inside and reach < TRIM_REACH_MM - 0.01 and abs(sc - sd) > 2 * TRIM_REACH_MM
            maybe += -0.01 <= along <= length + 0.01 and reach < TRIM_REACH_MM + 0.01
        if not sure <= run['screws'] <= maybe:
            self.report.fault(f'{run["trim"]} of {run["length_mm"]}: {run["screws"]} screws, '
                              f'{sure} to {maybe} battens')


def offset(a, b, p):
    """How far p lies to the left of the line from a to b."""
    return ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / distance(a, b)


def distance_to_line(a, b, p):
    length = distance(a, b)
    t = ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / length ** 2
    t = min(max(t, 0), 1)
    return hypot(a[0] + t * (b[0] - a[0]) - p[0], a[1] + t * (b[1] - a[1]) - p[1])


def check_joins(house, report):
    """Along every join that carries joint lines, lines of both faces meet the edge at the same
    places; level boards at plumb corners at the same height."""
    missing = {f.get('face') for f in house.plan['findings']
               if f['id'] in ('lines-miss', 'unequal-pitch')}
    for face in house.faces:
        for edge in face.fields[0].edges.values():
            if not edge.partner or not edge.carries:
                continue
            other, key = edge.partner
            one, two = face.fields[0], other.fields[0]
            facing = two.edges[key]
            places = []
            for field, own in ((one, edge), (two, facing)):
                a, b = shifted(*own.line(), -own.build_up)
                p, q = field.to_board(a), field.to_board(b)
                slope = (q[1] - p[1]) / distance(a, b)
                places.append((p[1], slope, distance(a, b), field))
            if min(abs(p[1]) for p in places) < 0.02:
                continue
            pitches = [p[3].board['cover_mm'] / abs(p[1]) for p in places]
            marks = {one.plan['face'], two.plan['face']}
            if abs(pitches[0] - pitches[1]) > 0.01:
                if not marks & missing:
                    report.fault(f'{sorted(marks)}: pitches {pitches} and no finding')
                continue
            firsts = [(f.plan['phase_mm'] - start) / slope for start, slope, _, f in places]
            # Along the other edge one goes backwards.
            mirrored = house.match_mm(face, edge) + places[1][2] - firsts[1]
            miss = abs((firsts[0] - mirrored + pitches[0] / 2) % pitches[0] - pitches[0] / 2)
            report.count('joins')
            if miss > LEVEL_MM and not marks & missing:
                report.fault(f'{sorted(marks)}: joint lines miss by {miss:.3f}, no finding')
            if one.direction == two.direction == 0 and face.kind == other.kind == 'wall':
                check_heights(one, two, marks, missing, report)


def check_heights(one, two, marks, missing, report):
    heights = [[line['height_mm'] for line in f.plan['joint_lines'] if 'height_mm' in line]
               for f in (one, two)]
    for field, own in zip((one, two), heights):
        level, phase = field.face.surface.get('level_mm', 0), field.plan['phase_mm']
        for height in own:
            rest = (height - level - phase) / field.board['cover_mm']
            if abs(rest - round(rest)) > 0.0001:
                report.fault(f'{field.plan["face"]}: joint line at {height} is none of its own')
    if marks & missing or one.board['cover_mm'] != two.board['cover_mm']:
        return
    low, high = max(min(heights[0]), min(heights[1])), min(max(heights[0]), max(heights[1]))
    shared = [[h for h in own if low - LEVEL_MM <= h <= high + LEVEL_MM] for own in heights]
    if len(shared[0]) != len(shared[1]) or \
            any(abs(a - b) > LEVEL_MM for a, b in zip(sorted(shared[0]), sorted(shared[1]))):
        report.fault(f'{sorted(marks)}: joint lines at different heights')


def key_of(entry):
    return entry['kind'], entry['system'], entry['article'], entry.get('colour')


def expected_items(house):
    """What has to be sawn: Counter of (label, length) by article; lengths as ranges, for a plan's
    numbers are rounded before they are rounded up."""
    wanted = {}

    def add(key, label, length):
        wanted.setdefault(key, []).append((label, length))

    def add_run(key, label, length, stock, lap):
        longest = max(s['length_mm'] for s in stock) - 2 * house.end_trim
        while length > longest + 0.0006:
            add(key, label, longest)
            length -= longest - lap
        add(key, label, length)

    for piece in house.plan['pieces']:
        field = house.fields[piece['field']]
        add(('board', field.system.id, field.board['id'], piece['colour']), piece['mark'],
            piece['length_mm'])
    for run in house.plan['trims']:
        field = house.fields[run['field']]
        trim = field.system.trim(run['trim'])
        add_run(('trim', field.system.id, trim['id'], None), field.plan['face'], run['length_mm'],
                trim['stock'], trim.get('lap_mm', 0))
    for run in house.plan['battens']:
        field = house.fields[run['field']]
        batten = field.system.counter if run['counter'] else field.system.batten
        label = f'{field.plan["face"]}-{"C" if run["counter"] else "B"}{run["line"]}'
        if batten.get('stock'):
            add_run(('batten', field.system.id, batten['id'], None), label, run['length_mm'],
                    batten['stock'], 0)
    return wanted


def stock_of(house, entry):
    system = house.systems[entry['system']]
    if entry['kind'] == 'board':
        return system.board(entry['article'])['stock']
    if entry['kind'] == 'trim':
        return system.trim(entry['article'])['stock']
    return next(b for b in (system.batten, system.counter)
                if b and b['id'] == entry['article'])['stock']


def check_cutting(house, report):
    wanted = expected_items(house)
    for entry in house.plan['cutting']:
        key, name = key_of(entry), f'{entry["article"]} {entry.get("colour", "")}'.strip()
        expected = wanted.pop(key, [])
        left = Counter(item['label'] for item in entry['items'])
        left.subtract(label for label, _ in expected)
        if any(left.values()):
            report.fault(f'{name}: sawn are {sum(left.values()):+d} items, '
                         f'{[k for k, v in left.items() if v][:5]}')
        else:
            check_lengths(entry, expected, name, report)
        check_bars(house, entry, name, report)
    for key, items in wanted.items():
        report.fault(f'{key}: {len(items)} items that no list cuts')


def check_lengths(entry, expected, name, report):
    own, ours = {}, {}
    for item in entry['items']:
        own.setdefault(item['label'], []).append(item['length_mm'])
    for label, length in expected:
        ours.setdefault(label, []).append(length)
    for label, lengths in own.items():
        for given, length in zip(sorted(lengths), sorted(ours[label])):
            if not ceil(length - 0.0011) <= given <= ceil(length + 0.0011):
                report.fault(f'{name}: {label} is cut to {given}, needs {length}')


def check_bars(house, entry, name, report):
    kerf, trim = ceil(house.kerf - 1e-6), ceil(house.end_trim - 1e-6)
    items, stock = entry['items'], entry['stock']
    cut = Counter(i for bar in entry['bars'] for i in bar['items'])
    cannot = any(f['id'] == 'cannot-cut' for f in house.plan['findings'])
    if not (cannot and not entry['bars']) and \
            (set(cut) != set(range(len(items))) or any(n != 1 for n in cut.values())):
        report.fault(f'{name}: not every item is cut exactly once')
    for n, bar in enumerate(entry['bars']):
        lengths = [items[i]['length_mm'] for i in bar['items']]
        usable = stock[bar['stock']]['length_mm'] - 2 * trim
        used = sum(lengths) + kerf * (len(lengths) - 1)
        if used > usable:
            report.fault(f'{name}: bar {n} is overfull, {used} of {usable}')
        rest = max(usable - used - kerf, 0)
        if bar['rest_mm'] != rest:
            report.fault(f'{name}: bar {n} leaves {rest}, not {bar["rest_mm"]}')
    for i, kind in enumerate(stock):
        count = sum(bar['stock'] == i for bar in entry['bars'])
        if count > kind.get('limit', inf):
            report.fault(f'{name}: {count} bars of {kind["length_mm"]}, there are {kind["limit"]}')
    if not entry['bars']:
        return
    if entry['used_mm'] != sum(item['length_mm'] for item in items):
        report.fault(f'{name}: used {entry["used_mm"]} is not the sum of its items')
    if entry['bought_mm'] != sum(stock[bar['stock']]['length_mm'] for bar in entry['bars']):
        report.fault(f'{name}: bought {entry["bought_mm"]} is not the sum of its bars')
    if entry['bound'] > entry['cost'] or entry['proven'] != (entry['bound'] == entry['cost']):
        report.fault(f'{name}: bound {entry["bound"]}, cost {entry["cost"]}, '
                     f'proven {entry["proven"]}')
    check_bound(house, entry, name, kerf, trim, report)


def check_bound(house, entry, name, kerf, trim, report):
    """No fewer bars than the material fills; and the bound not above what the bars cost."""
    stock = entry['stock']
    if any(kind['owned'] for kind in stock):
        return
    need = sum(item['length_mm'] + kerf for item in entry['items'])
    rooms = [kind['length_mm'] - 2 * trim + kerf for kind in stock]
    if len(stock) == 1:
        least = -(-need // rooms[0])
        if len(entry['bars']) != entry['cost']:
            report.fault(f'{name}: {len(entry["bars"])} bars, cost {entry["cost"]}')
        if entry['bound'] < least:
            report.fault(f'{name}: bound {entry["bound"]} is below the material, {least}')
        return
    rows = stock_of(house, entry)
    priced = all(row.get('price', 0) > 0 for row in rows)
    prices = [max(1, floor(row['price'] * 100 + 0.5)) if priced else round(row['length_mm'])
              for row in rows]
    cost = sum(prices[bar['stock']] for bar in entry['bars'])
    least = min(Fraction(price, room) for price, room in zip(prices, rooms)) * need
    if cost != entry['cost']:
        report.fault(f'{name}: bars cost {cost}, stated {entry["cost"]}')
    if entry['bound'] < floor(least):
        report.fault(f'{name}: bound {entry["bound"]} is below the material, {float(least):.1f}')


def check_order(house, report):
    plan, buying = house.plan, house.buying
    needed = Counter()
    main = {}
    for entry in plan['cutting']:
        counts = Counter(bar['stock'] for bar in entry['bars'])
        bought = {i: n for i, n in counts.items() if not entry['stock'][i]['owned']}
        rows = stock_of(house, entry)
        for i, n in bought.items():
            needed[(*key_of(entry), rows[i]['length_mm'])] += n
        if bought:
            most = max(bought.values())
            first = min(i for i, n in bought.items() if n == most)
            main[(*key_of(entry), rows[first]['length_mm'])] = spare_of(buying, entry['kind'],
                                                                        sum(bought.values()))
    screws = count_screws(house)
    total = 0
    for line in plan['order']:
        name = f'{line["article"]} {line.get("length_mm", "")}'
        key = (*key_of(line), line.get('length_mm'))
        fixing = line['kind'] == 'fixing'
        count = screws.pop((line['system'], line['article']), 0) if fixing else needed.pop(key, 0)
        spare = ceil(count * buying['spare_screws_percent'] / 100 - 1e-6) if fixing \
            else main.get(key, 0)
        system = house.systems[line['system']]
        if fixing:
            row = next(f for f in system.data['fixings'] if f['id'] == line['article'])
        else:
            row = next(s for s in stock_of(house, line) if s['length_mm'] == line['length_mm'])
        pack, price = row.get('pack', 1), row.get('price', 0)
        packs = -(-(count + spare) // pack)
        cents = round_half_up(Fraction(str(price)) * (packs if fixing else packs * pack) * 100)
        wanted = {'needed': count, 'spare': spare, 'pack': pack, 'packs': packs,
                  'ordered': packs * pack, 'price': price, 'total': cents / 100}
        for member, value in wanted.items():
            if abs(line[member] - value) > 1e-6:
                report.fault(f'order, {name}: {member} {line[member]}, reckoned {value}')
        total += cents
    for key, count in list(needed.items()) + [(k, n) for k, n in screws.items() if n]:
        if count:
            report.fault(f'order: {count} of {key} are missing')
    if abs(plan['total'] - total / 100) > 0.001:
        report.fault(f'order: total {plan["total"]}, reckoned {total / 100}')
    weight = sum(line.get('weight_kg', 0) for line in plan['order'])
    if abs(weight - plan['weight_kg']) > 0.001 * len(plan['order']) + 0.001:
        report.fault(f'order: weight {plan["weight_kg"]}, sum {weight:.3f}')


def round_half_up(value):
    return floor(value + Fraction(1, 2))


def spare_of(buying, kind, bars):
    share = ceil(bars * buying['spare_percent'] / 100 - 1e-6)
    return {'board': max(buying['spare_least'], share), 'trim': buying['spare_trims'],
            'batten': share}[kind]


def count_screws(house):
    counts = Counter()
    for system in house.systems.values():
        boards = sum(p['screws'] for p in house.plan['pieces']
                     if house.fields[p['field']].system is system)
        trims = sum(t['screws'] for t in house.plan['trims']
                    if house.fields[t['field']].system is system)
        known = {f['id'] for f in system.data.get('fixings', [])}
        for member, count in (('board_fixing', boards), ('trim_fixing', trims)):
            if system.data.get(member) in known:
                counts[(system.id, system.data[member])] += count
    return counts


def check_reckonings(house, report):
    """Every chain of terms adds up to its result, and to the number that it explains."""
    def walk(value):
        if isinstance(value, dict):
            if 'terms' in value:
                terms = value['terms']
                report.count('reckonings')
                off = sum(t['value'] for t in terms) - value['result']
                if abs(off) > SUM_MM * (len(terms) + 1):
                    report.fault(f'reckoning “{value["title"]}” does not add up')
            for member in value.values():
                walk(member)
        elif isinstance(value, list):
            for member in value:
                walk(member)

    def same(reckoning, number, what):
        if abs(reckoning['result'] - number) > 0.0011:
            report.fault(f'{what}: {number}, its reckoning says {reckoning["result"]}')

    plan = house.plan
    walk(plan)
    for piece in plan['pieces']:
        same(piece['length_reckoning'], piece['length_mm'], f'{piece["mark"]} length')
        same(piece['width_reckoning'], piece['width_mm'], f'{piece["mark"]} width')
        for name in ('left', 'right'):
            end = piece[name]
            same(end['gap_reckoning'], end['gap_mm'], f'{piece["mark"]} gap {name}')
    for index, field in enumerate(plan['fields']):
        for edge in field['edges']:
            stack = (edge['clearance_mm'] + edge['back_mm'] + edge['gap_across_mm'] +
                     edge['absorbed_mm'] - edge['build_up_mm'])
            same(edge['reckoning'], round(stack, 3), f'{field["face"]} edge stack')
        screws = sum(p['screws'] for p in plan['pieces'] if p['field'] == index)
        screws += sum(t['screws'] for t in plan['trims'] if t['field'] == index)
        same(field['screws'], screws, f'{field["face"]} screws')
