# SPDX-License-Identifier: GPL-3.0-or-later
"""Boards of a plan against the area they have to cover. Each course is cut from the checker's own
pocket lines into parts; from these follow ends, gaps and lengths; then every level line through
the field must be full: board, gap that the rules ask for, board, and nothing else."""
from math import hypot, inf

from audit_geometry import at_height, breaks_in, distance, ring_area, spans_at

# Coordinates of a plan have three decimals.
ROUND_MM = 0.002
LENGTH_MM = 0.1
LEVEL_MM = 0.1
# Where a side lies flatter than this against the boards, a level line grazes it and says nothing
# of its distance.
FLAT_SINE = 0.25


class Part:
    """What the pocket lines leave of a course between two columns."""

    def __init__(self, field, line, columns):
        self.field = field
        self.line = line
        self.columns = columns
        self.slabs = []  # (low y, high y, left x at both, right x at both, left and right segment)
        self.pieces = []
        self.boundary = None

    def add(self, slab):
        self.slabs.append(slab)

    def extent(self):
        return (min(min(s[2], s[3]) for s in self.slabs), max(max(s[4], s[5]) for s in self.slabs))

    def area(self):
        return sum((s[1] - s[0]) * (s[4] - s[2] + s[5] - s[3]) / 2 for s in self.slabs)

    def height(self):
        return (min(s[0] for s in self.slabs), max(s[1] for s in self.slabs))


class End:
    """One end of a part: which lines it may end at, and what the rules say of it."""

    def __init__(self, part, left):
        self.left = left
        low, high = part.extent()
        self.x = low if left else high
        segments = {}
        for slab in part.slabs:
            a, b = (slab[2], slab[3]) if left else (slab[4], slab[5])
            if min(abs(a - self.x), abs(b - self.x)) < 0.1:
                segment = slab[6] if left else slab[7]
                segments[id(segment)] = segment
        self.segments = list(segments.values())
        self.column = any(s is None for s in self.segments)
        self.keys = {key for s in self.segments if s for key in s[3]}
        outermost = [min((s for s in part.slabs if s[0] <= y <= s[1]),
                         key=lambda s: s[2] if left else -s[4])
                     for y in {(s[0] + s[1]) / 2 for s in part.slabs}]
        lines = {id(s[6] if left else s[7]) for s in outermost}
        segment = self.segments[0]
        self.sine = 1.0
        if len(self.segments) != 1:
            self.sure = False
        elif segment is None:
            self.sure = True
        else:
            (ax, ay), (bx, by) = segment[:2]
            self.sine = abs(by - ay) / hypot(bx - ax, by - ay)
            edge = part.field.edges[segment[2]]
            # Along a long side nothing ends: boards that taper against it run out to a point.
            self.sure = not edge.bulge and not edge.long_side and (
                self.sine > 1 - 1e-9 or len(lines) == 1 and not self.tapers(part))

        # Square sides within 10 mm of the end are cut in one line with it: where a length joint
        # stands on the side of an opening.
        joint = part.field.joint_trim()
        web = joint.get('back_mm', 0) if joint else 0
        inwards = 1 if left else -1
        self.inset = max([self.inset_of(part, slab, web) * inwards for slab in part.slabs] + [0])

    def inset_of(self, part, slab, web):
        a, b, segment = (slab[2], slab[3], slab[6]) if self.left else (slab[4], slab[5], slab[7])
        inwards = 1 if self.left else -1
        if abs(a - b) > 1e-6 or abs(a - self.x) > 9.9 or \
                segment and part.field.edges[segment[2]].long_side:
            return 0
        return a - self.x + (inwards * web if segment is None else 0)

    def tapers(self, part):
        """Ends in a point, so that its outermost corner moves by more than its gap."""
        for s in part.slabs:
            for a, b in ((s[2], s[4]), (s[3], s[5])):
                if abs((a if self.left else b) - self.x) < 0.1 and b - a < 0.5:
                    return True
        return False

    def trims(self, field):
        if self.column:
            return [field.joint_trim()]
        return [field.edges[key].trim for key in self.keys] or [None]


def split_by_columns(spans, columns):
    for a0, a1, b0, b1, left, right in spans:
        inner = [c for c in columns if min(a0, a1) + 1e-6 < c < max(b0, b1) - 1e-6]
        if not inner:
            yield a0, a1, b0, b1, left, right
            continue
        edges = [(a0, a1, left)] + [(c, c, None) for c in inner] + [(b0, b1, right)]
        for (p0, p1, s), (q0, q1, t) in zip(edges, edges[1:]):
            if (q0 - p0) + (q1 - p1) > 2e-3:
                yield p0, p1, q0, q1, s, t


def cut_course(field, segments, line, cover, columns):
    """The connected parts of one course."""
    near = [s for s in segments
            if max(s[0][1], s[1][1]) > line and min(s[0][1], s[1][1]) < line + cover]
    heights = [p[1] for s in near for p in (s[0], s[1])]
    for s in near:
        for c in columns:
            (ax, ay), (bx, by) = s[0], s[1]
            if (ax - c) * (bx - c) < 0:
                heights.append(ay + (c - ax) / (bx - ax) * (by - ay))
    parts, before, before_y = [], [], None
    breaks = breaks_in(line, line + cover, *heights)
    for low, high in zip(breaks, breaks[1:]):
        spans = []
        for _, _, left, right in spans_at(near, (low + high) / 2):
            spans.append((at_height(left, low), at_height(left, high), at_height(right, low),
                          at_height(right, high), left, right))
        now = []
        for a0, a1, b0, b1, left, right in split_by_columns(spans, columns):
            slab = (low, high, a0, a1, b0, b1, left, right)
            touching = [p for p, s in before
                        if before_y == low and min(s[5], b0) - max(s[3], a0) > 0.1]
            part = touching[0] if touching else Part(field, line, columns)
            if not touching:
                parts.append(part)
            for other in touching[1:]:
                if other is not part:
                    part.slabs += other.slabs
                    parts = [p for p in parts if p is not other]
                    before = [(part if p is other else p, s) for p, s in before]
                    now = [(part if p is other else p, s) for p, s in now]
            part.add(slab)
            now.append((part, slab))
        before, before_y = now, high
    return [p for p in parts if p.area() > 0.05]


class BoardAudit:
    def __init__(self, house, index, field, report):
        self.house = house
        self.index = index
        self.field = field
        self.report = report
        self.plan = house.plan
        self.cover = field.board['cover_mm']
        self.pieces = []
        self.findings = {(f['id'], f.get('face')) for f in self.plan['findings']}
        self.mark = field.plan['face']

    def fault(self, text):
        self.report.fault(f'{self.mark}: {text}')

    def found(self, finding):
        return (finding, self.mark) in self.findings

    def run(self):
        field, plan = self.field, self.field.plan
        pocket = field.region('pocket').mapped(field.to_board)
        self.segments = pocket.segments
        pieces = self.plan['pieces'][plan['first_piece']:plan['first_piece'] + plan['pieces']]
        for data in pieces:
            rings = [[field.to_board(p) for p in ring] for ring in data['rings']]
            self.pieces.append(Piece(data, rings))
        self.parts = self.cut_parts()
        self.assign()
        self.raked = {}
        for part in self.parts:
            self.set_gaps(part)
        for part in self.parts:
            self.check_part(part)
        self.check_full(pocket)
        for piece in self.pieces:
            self.check_piece(piece)
        if plan['joint_pattern'] != 'columns':
            self.check_butts()

    def joint_rule(self, name, fallback):
        """What zone, surface or system say, in this order; 0 counts as silence."""
        zone = self.field.plan.get('zone')
        surface = self.field.face.surface
        sources = [z for z in surface.get('zones', []) if z['id'] == zone] + [surface]
        for source in sources + [self.field.system.data.get('rules', {})]:
            if source.get(name):
                return source[name]
        return fallback

    def check_butts(self):
        """R22: offset and repetition or a finding, and battens behind both ends."""
        pattern = self.field.plan['joint_pattern']
        offset = self.joint_rule('joint_offset_mm', max(600, 2 * self.cover))
        repeat = self.joint_rule('joint_repeat', 2 if pattern == 'balanced' else 3)
        joints = [(round((j['line_mm'] - self.field.plan['phase_mm']) / self.cover), j['at_mm'])
                  for j in self.field.plan['length_joints']]
        for course, at in joints:
            near = [x for k, x in joints if 0 < course - k < repeat and abs(x - at) < offset - 0.01]
            if near and not self.found('joint-offset'):
                self.fault(f'joint at {at:.0f} lies {abs(near[0] - at):.0f} beside one below')
        half = self.field.system.data['batten'].get('width_mm', 48) / 2
        battens = []
        for run in self.plan['battens']:
            if run['field'] == self.index and not run.get('counter'):
                (ax, ay), (bx, by) = (self.field.to_board(run[end]) for end in ('from', 'to'))
                battens.append((ax, min(ay, by), max(ay, by)))
        bearing = self.field.rules['butt_bearing_mm']
        for piece in self.pieces:
            xs = [x for x, _ in piece.rings[0]]
            low, high, y = min(xs), max(xs), piece.inner_point()[1]
            for end, x, sign in (('left', low, 1), ('right', high, -1)):
                if 'edge' in piece.data[end] or not any(abs(x - at) < 20 for _, at in joints):
                    continue
                wanted = (x, x + sign * bearing / 2, x + sign * (bearing - 0.01))
                if not all(any(abs(place - b) <= half + 0.01 for b, bottom, top in battens
                               if bottom <= y <= top) for place in wanted):
                    self.fault(f'{piece.mark} does not bear on a batten at its {end} end')

    def cut_parts(self):
        if not self.segments:
            return []
        ys = [p[1] for s in self.segments for p in (s[0], s[1])]
        phase, parts = self.field.plan['phase_mm'], []
        first = int((min(ys) + 0.05 - phase) // self.cover)
        last = int((max(ys) - 0.05 - phase) // self.cover)
        butt = self.field.plan['joint_pattern'] != 'columns'

        def columns_of(line):
            if not butt:
                return self.field.plan['columns_mm']
            return sorted({j['at_mm'] for j in self.field.plan['length_joints']
                           if abs(j['line_mm'] - line) < 0.01})

        for k in range(first, last + 1):
            line = phase + k * self.cover
            columns = columns_of(line)
            for whole in cut_course(self.field, self.segments, line, self.cover, []):
                low, high = whole.extent()
                inner = [c for c in columns if low + 1e-6 < c < high - 1e-6]
                if not inner or not butt and self.stays_whole(low, high, inner):
                    parts.append(whole)
                else:
                    split = cut_course(self.field, self.segments, line, self.cover, columns)
                    parts += [p for p in split if any(self.inside(whole, s) for s in p.slabs)]
        return parts

    @staticmethod
    def inside(whole, slab):
        y = (slab[0] + slab[1]) / 2
        x = (slab[2] + slab[3] + slab[4] + slab[5]) / 4
        return any(s[0] <= y <= s[1] and min(s[2], s[3]) - 0.1 <= x <= max(s[4], s[5]) + 0.1
                   for s in whole.slabs)

    def stays_whole(self, low, high, columns):
        least = self.field.rules['min_piece_mm']
        return (high - low <= self.field.longest_stock(self.house.data) and
                any(c - low < least or high - c < least for c in columns))

    def assign(self):
        """Each piece lies in exactly one part."""
        for piece in self.pieces:
            x, y = piece.inner_point()
            homes = [p for p in self.parts
                     if any(s[0] <= y <= s[1] and min(s[2], s[3]) <= x <= max(s[4], s[5])
                            for s in p.slabs)]
            if len(homes) != 1:
                self.fault(f'{piece.mark} lies in {len(homes)} parts of the courses')
                continue
            homes[0].pieces.append(piece)
            piece.part = homes[0]

    def set_gaps(self, part):
        field = self.field
        low, high = part.extent()
        part.left, part.right = End(part, True), End(part, False)
        part.clear = max(high - low - self.web(part.left) - self.web(part.right), 0)
        upper = field.left_is_upper()
        for end, is_upper in ((part.left, upper), (part.right, not upper)):
            butt = end.column and field.plan['joint_pattern'] != 'columns'
            end.gap = field.gap(part.clear, is_upper, butt)
            end.run = field.run(part.clear, is_upper)
            for segment in end.segments:
                if segment is None:
                    continue
                key = segment[2]
                if abs(segment[0][0] - segment[1][0]) > 1e-6:
                    self.raked[key] = max(self.raked.get(key, 0), end.gap)

    def web(self, end):
        """Half of the joint trim's web, where a part ends at a column."""
        trim = end.trims(self.field)[0]
        return trim.get('back_mm', 0) if end.column and trim else 0

    def hidden(self, part):
        pockets = [max((t or {}).get('pocket_mm', 0) for t in end.trims(self.field))
                   for end in (part.left, part.right)]
        return part.clear <= sum(pockets) + ROUND_MM

    def shared_gap(self, end):
        return max([end.gap] + [self.raked.get(key, 0) for key in end.keys])

    def check_part(self, part):
        low, high = part.extent()
        where = f'course at {part.line:.1f}, {low:.1f} to {high:.1f}'
        if not part.pieces:
            if not self.hidden(part) and part.area() > 100:
                self.fault(f'{where}: no board, {part.area() / 100:.1f} cm²')
            return
        left, right = part.left, part.right
        self.report.count('parts')
        if len(part.pieces) > 1:
            self.report.count('parts of several pieces')
            return
        piece = part.pieces[0]
        for name, end in (('left', left), ('right', right)):
            if not end.sure:
                continue
            own = piece.data[name]
            expected = self.shared_gap(end)
            if abs(own['gap_mm'] - expected) > ROUND_MM:
                self.fault(f'{piece.mark}: gap {name} {own["gap_mm"]}, reckoned {expected}')
            if abs(own['run_mm'] - end.run) > LENGTH_MM:
                self.fault(f'{piece.mark}: run {name} {own["run_mm"]}, reckoned {end.run:.3f}')
            pockets = {(t or {}).get('pocket_mm', 0) for t in end.trims(self.field)}
            if own['pocket_mm'] not in pockets:
                self.fault(f'{piece.mark}: pocket {name} {own["pocket_mm"]}, not of {pockets}')
        if abs(piece.data['clear_mm'] - part.clear) > LENGTH_MM:
            self.fault(f'{piece.mark}: clear {piece.data["clear_mm"]}, reckoned {part.clear:.3f}')
        if left.sure and right.sure:
            low, high = part.extent()
            length = (high - low - left.inset - right.inset - self.shared_gap(left) / left.sine -
                      self.shared_gap(right) / right.sine)
            self.report.count('lengths reckoned')
            if abs(piece.data['length_mm'] - length) > LENGTH_MM:
                self.fault(f'{piece.mark}: length {piece.data["length_mm"]}, reckoned {length:.3f}')

    def check_full(self, pocket):
        """Every level line of the field: boards and gaps fill it, and nothing overlaps."""
        by_line = {}
        for part in self.parts:
            by_line.setdefault(round(part.line, 3), []).append(part)
        covered = sum(piece.area() for piece in self.pieces)
        uncovered = lost = 0.0
        for parts in by_line.values():
            line = parts[0].line
            pieces = [p for p in self.pieces
                      if line - 1 < p.bottom and p.top < line + self.cover + 1]
            heights = [y for part in parts for s in part.slabs for y in s[:2]]
            heights += [y for p in pieces for ring in p.rings for _, y in ring]
            breaks = breaks_in(line, line + self.cover, *heights)
            for low, high in zip(breaks, breaks[1:]):
                for share in (0.3, 0.7):
                    y = low + share * (high - low)
                    gone, hidden = self.check_line(parts, pieces, y)
                    uncovered += gone * (high - low) / 2
                    lost += hidden * (high - low) / 2
        area = pocket.area()
        bent = sum(distance(*e.raw) for e in self.field.edges.values() if e.bulge)
        around = sum(distance(s[0], s[1]) for s in self.segments)
        # Three decimals of a coordinate move a side by half a micrometre at each end; the pieces'
        # corners and thin slabs that are passed over add no more than 0.02 mm along the boundary.
        slack = 0.03 * around + 0.02 * sum(p.around() for p in self.pieces) + bent + 10
        if abs(area - covered - uncovered - lost) > slack:
            self.fault(f'areas: pockets {area:.0f} ≠ boards {covered:.0f} + gaps {uncovered:.0f} '
                       f'+ under trims {lost:.0f}')
        self.report.add_area(area, covered, uncovered, lost)

    def check_line(self, parts, pieces, y):
        spans = []
        for piece in pieces:
            spans += [(a, b, piece) for a, b in piece.spans_at(y)]
        spans.sort(key=lambda s: s[0])
        for (_, end, one), (start, _, other) in zip(spans, spans[1:]):
            if start < end - 0.02:
                self.fault(f'{one.mark} and {other.mark} overlap by {end - start:.3f} at {y:.1f}')
        uncovered = hidden = 0.0
        free = list(spans)
        for part in parts:
            for slab in part.slabs:
                if not slab[0] <= y <= slab[1]:
                    continue
                t = (y - slab[0]) / (slab[1] - slab[0])
                low = slab[2] + t * (slab[3] - slab[2])
                high = slab[4] + t * (slab[5] - slab[4])
                inside = [s for s in spans
                          if s[2].part is part and s[1] > low - 0.5 and s[0] < high + 0.5]
                free = [s for s in free if s not in inside]
                if not inside:
                    hidden += high - low
                    self.check_empty(part, slab, low, high, y)
                    continue
                uncovered += high - low - sum(b - a for a, b, _ in inside)
                self.check_side(part, slab, True, inside[0][0] - low, y, inside[0][2])
                self.check_side(part, slab, False, high - inside[-1][1], y, inside[-1][2])
        for _, _, piece in free:
            self.fault(f'{piece.mark} reaches out of its course at {y:.1f}')
        return uncovered, hidden

    def reach(self, part):
        """No cut line is further from its pocket line than this."""
        return max(self.field.rules['notch_clear_mm'],
                   *(self.shared_gap(end) + end.inset for end in (part.left, part.right)))

    def nearest(self, part, x, y):
        """(distance, whether to a long side) from a point to the part's boundary."""
        found = []
        low, high = part.extent()
        for column in part.columns:
            if low - 0.1 <= column <= high + 0.1:
                found.append((abs(column - x), 1))
        for segment in self.near(part):
            found.append((distance_to(segment, (x, y)),
                          0 if self.field.edges[segment[2]].long_side else 1))
        away = min(found, default=(inf, 1))[0]
        return away, any(d < away + 0.01 and not square for d, square in found)

    def near(self, part):
        if part.boundary is None:
            low, high = part.extent()
            bottom, top = part.height()
            part.boundary = [s for s in self.segments
                             if max(s[0][0], s[1][0]) > low - 100
                             and min(s[0][0], s[1][0]) < high + 100
                             and max(s[0][1], s[1][1]) > bottom - 100
                             and min(s[0][1], s[1][1]) < top + 100]
        return part.boundary

    def check_empty(self, part, slab, low, high, y):
        """Nothing there: a part that both trims cover, or a tip that the gaps use up."""
        if not part.pieces:
            return
        away, _ = self.nearest(part, (low + high) / 2, y)
        if away > 2.5 * self.reach(part) + 0.1:
            self.fault(f'nothing covers {high - low:.1f} mm at {low:.1f}, {y:.1f}')

    def check_side(self, part, slab, left, gap, y, piece):
        """How far the board's side keeps from its pocket line."""
        end = part.left if left else part.right
        segment = slab[6] if left else slab[7]
        if gap < -0.02:
            self.fault(f'{piece.mark} crosses its pocket line by {-gap:.3f} at {y:.1f}')
        if segment is not None and self.sine(segment) < FLAT_SINE:
            return
        t = (y - slab[0]) / (slab[1] - slab[0])
        x = slab[2] + t * (slab[3] - slab[2]) + gap if left else \
            slab[4] + t * (slab[5] - slab[4]) - gap
        away, long_side = self.nearest(part, x, y)
        self.report.count('distances')
        steps = [self.field.rules['notch_clear_mm'], self.shared_gap(end),
                 self.shared_gap(end) + end.inset]
        if long_side and away >= -0.02 or any(abs(away - step) < 0.05 for step in steps):
            return
        # Cut in one line with the end, or near a corner of the pocket line, where both sides
        # count.
        step = (self.shared_gap(end) + end.inset) * (1 if left else -1)
        straight = abs(x - end.x - step) < 0.05
        corner = any(abs(p[1] - y) < self.reach(part) + 0.1
                     for s in self.near(part) for p in s[:2])
        if min(steps) - 0.05 <= away and (straight or
                                          corner and away <= 2.5 * self.reach(part) + 0.1):
            self.report.count('distances at corners')
            return
        self.fault(f'{piece.mark}: {away:.3f} mm between board and pocket line at {y:.1f}, '
                   f'not {sorted(set(steps))}')

    @staticmethod
    def sine(segment):
        (ax, ay), (bx, by) = segment[:2]
        return abs(by - ay) / hypot(bx - ax, by - ay)

    def check_piece(self, piece):
        data, rules, field = piece.data, self.field.rules, self.field
        self.report.count('pieces')
        xs = [x for ring in piece.rings for x, _ in ring]
        if abs(max(xs) - min(xs) - data['length_mm']) > 0.005:
            drawn = max(xs) - min(xs)
            self.fault(f'{data["mark"]}: length {data["length_mm"]}, drawn {drawn:.3f}')
        width = piece.top - piece.bottom
        if abs(width - data['width_mm']) > LENGTH_MM:
            self.fault(f'{data["mark"]}: width {data["width_mm"]}, drawn {width:.3f}')
        if data['length_mm'] > field.longest_stock(self.house.data) + ROUND_MM and \
                not any(f['id'] == 'cannot-cut' for f in self.plan['findings']):
            self.fault(f'{data["mark"]}: {data["length_mm"]} is longer than any stock')
        narrow = width < min(self.cover - 0.1, rules['min_rip_mm'] - ROUND_MM)
        if narrow and not self.found('sliver'):
            self.fault(f'{data["mark"]}: strip of {width:.2f} and no finding')
        if data['length_mm'] < rules['min_piece_mm'] - ROUND_MM and not self.found('short-piece'):
            self.fault(f'{data["mark"]}: {data["length_mm"]} long and no finding')
        for notch in data['notches']:
            ends = notch['from_left_mm'], notch['from_left_mm'] + notch['width_mm']
            point = notch['leaves_mm'] < 0.1 and (ends[0] < 0.1 or
                                                  ends[1] > data['length_mm'] - 0.1)
            if notch['leaves_mm'] < rules['min_rip_mm'] - ROUND_MM and not point and \
                    not self.found('notch-leaves-sliver'):
                self.fault(f'{data["mark"]}: notch leaves {notch["leaves_mm"]} and no finding')
            if notch['width_mm'] > rules['notch_longest_mm'] + ROUND_MM and \
                    not self.found('long-notch'):
                self.fault(f'{data["mark"]}: notch of {notch["width_mm"]} and no finding')
        for name in ('left', 'right'):
            if not self.runs_out(piece, name):
                self.check_end(data, name, data[name])
        if field.mix and data['colour'] not in field.mix or \
                not field.mix and data['colour'] != field.colour['id']:
            self.fault(f'{data["mark"]}: colour {data["colour"]}')

    def runs_out(self, piece, name):
        """Ends in a point between its long sides: on no edge and on no column, and keeps no gap."""
        end, corners = piece.data[name], [p for ring in piece.rings for p in ring]
        outermost = (min if name == 'left' else max)(x for x, _ in corners)
        blunt = len([x for x, _ in corners if abs(x - outermost) < 0.1]) > 1
        if 'edge' in end or blunt:
            return False
        if end['gap_mm'] != 0 or end['run_mm'] != 0:
            self.fault(f'{piece.mark}: a gap of {end["gap_mm"]} at a point')
        return True

    def check_end(self, data, name, end):
        """R27 both ways, from the run that the drawn length gives."""
        rules, field = self.field.rules, self.field
        pocket, gap = end['pocket_mm'], end['gap_mm']
        held = field.fixed == 'top' and (name == 'left') == field.left_is_upper()
        run = 0 if held else data['length_mm'] * (1 if field.fixed == 'top' else 0.5)
        grows = field.expand * run + (0 if held else rules['tolerance_mm'])
        if gap < grows - 0.02:
            self.fault(f'{data["mark"]}: {name} end needs {grows:.2f}, has a gap of {gap}')
        stays = pocket - gap - field.shrink * run - rules['tolerance_mm']
        loose = pocket > 0 and stays < rules['min_engagement_mm'] - 0.02
        if loose and not self.found('engagement'):
            self.fault(f'{data["mark"]}: {name} end stays {stays:.2f} in its pocket, no finding')


class Piece:
    def __init__(self, data, rings):
        self.data = data
        self.rings = rings
        self.mark = data['mark']
        self.part = None
        ys = [y for ring in rings for _, y in ring]
        self.bottom, self.top = min(ys), max(ys)
        self.sides = [(a, b) for ring in rings for a, b in zip(ring, ring[1:] + ring[:1])
                      if a[1] != b[1]]

    def area(self):
        return sum(ring_area(ring) for ring in self.rings)

    def around(self):
        return sum(distance(a, b) for ring in self.rings
                   for a, b in zip(ring, ring[1:] + ring[:1]))

    def spans_at(self, y):
        xs = sorted(at_height(s, y) for s in self.sides if (s[0][1] > y) != (s[1][1] > y))
        return [(xs[i], xs[i + 1]) for i in range(0, len(xs) - 1, 2)]

    def inner_point(self):
        breaks = breaks_in(self.bottom, self.top, *[y for ring in self.rings for _, y in ring])
        low, high = max(zip(breaks, breaks[1:]), key=lambda pair: pair[1] - pair[0])
        y = (low + high) / 2
        a, b = max(self.spans_at(y), key=lambda span: span[1] - span[0])
        return (a + b) / 2, y


def distance_to(segment, point):
    (ax, ay), (bx, by) = segment[:2]
    length = hypot(bx - ax, by - ay)
    t = ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / length ** 2
    t = min(max(t, 0), 1)
    return hypot(ax + t * (bx - ax) - point[0], ay + t * (by - ay) - point[1])


def segment_in_piece(piece, a, b):
    """Length of a straight line within a piece."""
    length = distance(a, b)
    if length < 1e-6:
        return 0.0
    cuts = {0.0, 1.0}
    for ring in piece.rings:
        for c, d in zip(ring, ring[1:] + ring[:1]):
            ux, uy = b[0] - a[0], b[1] - a[1]
            sc = ux * (c[1] - a[1]) - uy * (c[0] - a[0])
            sd = ux * (d[1] - a[1]) - uy * (d[0] - a[0])
            if (sc > 0) != (sd > 0):
                part = sc / (sc - sd)
                x, y = c[0] + part * (d[0] - c[0]), c[1] + part * (d[1] - c[1])
                cuts.add(((x - a[0]) * ux + (y - a[1]) * uy) / length ** 2)
    cuts = sorted(t for t in cuts if 0 <= t <= 1)
    total = 0.0
    for t0, t1 in zip(cuts, cuts[1:]):
        x, y = a[0] + (t0 + t1) / 2 * (b[0] - a[0]), a[1] + (t0 + t1) / 2 * (b[1] - a[1])
        crossed = sum(at_height(s, y) > x for s in piece.sides if (s[0][1] > y) != (s[1][1] > y))
        total += (t1 - t0) * length if crossed % 2 else 0
    return total
