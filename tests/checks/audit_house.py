# SPDX-License-Identifier: GPL-3.0-or-later
"""What follows from a house file before any board is cut, derived anew for the plan's checker:
faces with their reveals, the condition of each edge, build-up at corners, trims and clearances by
the system's table, movement. Rule numbers are those of docs/rules.md."""
import json
import os
from math import atan2, ceil, cos, degrees, pi, radians, sin

from audit_geometry import Affine, Region, distance, moved_ring, shifted

SNAP_MM = 0.1
SAME_DEG = 0.01
LONG_SIDE_DEG = 15
RULES = {
    'batten_centres_mm': 400, 'soffit_centres_mm': 400, 'counter_centres_mm': 600,
    'batten_edge_mm': 50, 'double_batten_mm': 40, 'batten_opening_mm': 20, 'min_rip_mm': 60,
    'min_piece_mm': 300, 'gap_across_mm': 5, 'fixed_end_gap_mm': 2, 'min_gap_mm': 0,
    'notch_longest_mm': 6000,
    'notch_clear_mm': 8, 'min_engagement_mm': 5, 'tolerance_mm': 1, 'joint_distance_mm': 150,
    'ground_clearance_mm': 50, 'upright_fixed': 'middle', 'butt_gap_mm': 0,
    'butt_bearing_mm': 15, 'butt_joints': 'never',
}
# EN 1991-1-5, table 5.2, as docs/rules.md M1 quotes it.
SUN_K = {'bright': (18, 0), 'light': (30, 2), 'dark': (42, 4)}


def in_ring(sides, point):
    inside = False
    for (ax, ay), (bx, by) in sides:
        if (ay > point[1]) != (by > point[1]):
            inside ^= ax + (point[1] - ay) / (by - ay) * (bx - ax) > point[0]
    return inside


def shared_mm(side, other):
    """How much of a side lies on another that runs the same way."""
    (ax, ay), (bx, by) = side
    length = distance(*side)
    ex, ey = (bx - ax) / length, (by - ay) / length
    if any(abs(ex * (p[1] - ay) - ey * (p[0] - ax)) > SNAP_MM for p in other):
        return 0
    low, high = (ex * (p[0] - ax) + ey * (p[1] - ay) for p in other)
    return max(0, min(high, length) - max(low, 0)) if low <= high else 0


def load_json(path):
    with open(path, encoding='utf-8') as file:
        return json.load(file)


class System:
    def __init__(self, data):
        self.data = data
        self.id = data['id']
        self.rules = {**RULES, **data.get('rules', {})}
        self.boards = data['boards']
        self.trims = {trim['id']: trim for trim in data.get('trims', [])}
        self.batten = {'id': 'batten', 'width_mm': 48, **data.get('batten', {})}
        self.counter = data.get('counter_batten')

    def board(self, board_id):
        return next(b for b in self.boards if not board_id or b['id'] == board_id)

    def trim(self, trim_id):
        return self.trims.get(trim_id)

    def rule(self, kind, relation, condition, starters):
        """The first row of the table that fits; None where none does."""
        for row in self.data.get('trim_rules', []):
            if (row.get('surface', 'any') in ('any', kind) and row['condition'] == condition and
                    row.get('boards', 'any') in ('any', relation) and
                    (starters or not row.get('starter'))):
                return row
        return None


def load_systems(house, folder, shipped):
    systems = {}
    for entry in house['systems']:
        data = entry
        if 'from' in entry:
            own, ours = (os.path.join(folder, entry['from']),
                         os.path.join(shipped, entry['from'] + '.json'))
            data = {**load_json(ours if os.path.exists(ours) else own),
                    **{k: entry[k] for k in ('id', 'name') if k in entry}}
        systems[data['id']] = System(data)
    return systems


def corner_sides(corners):
    return [((a['x'], a['y']), (b['x'], b['y']), a.get('bulge', 0), a)
            for a, b in zip(corners, corners[1:] + corners[:1])]


def opening_sides(opening):
    shape, x, y = opening.get('shape', 'rectangle'), opening.get('x', 0), opening.get('y', 0)
    if shape == 'polygon':
        return corner_sides(opening['corners'])
    width = opening['width_mm']
    if shape == 'circle':
        left, right = (x - width / 2, y), (x + width / 2, y)
        return [(left, right, 1, {}), (right, left, 1, {})]
    rise = opening.get('rise_mm', 0) if shape == 'arch' else 0
    spring = y + opening['height_mm'] - rise
    points = [(x, y), (x + width, y), (x + width, spring), (x, spring)]
    return [(a, b, 2 * rise / width if i == 2 else 0, {})
            for i, (a, b) in enumerate(zip(points, points[1:] + points[:1]))]


def side_role(side):
    dx, dy = side[1][0] - side[0][0], side[1][1] - side[0][1]
    if abs(dy) > abs(dx):
        return 'jamb'
    return 'sill' if dx > 0 else 'head'


class Edge:
    """One side of outline, opening or zone as one field sees it. Lengths of its stack are square
    to it, named as in the plan."""

    def __init__(self, key, side, turned):
        self.key = key
        self.raw = side[:2]
        self.bulge = side[2]
        self.corner = side[3]
        self.turned = turned
        self.opening = key[1] if key[0] == 'opening' else None
        self.zone = key[1] if key[0] == 'zone' else None
        self.condition = self.corner.get('condition', 'auto')
        self.partner = None
        self.fold = 0
        self.carries = False
        self.offset = 0
        self.derived_join = False
        self.build_up = self.clearance = self.back = self.across = self.absorbed = 0
        self.rule = self.trim = None
        self.starter = False
        self.trimless = False
        self.yields = []

    def line(self):
        """With the clad area on its left."""
        return self.raw[::-1] if self.turned else self.raw

    def bent(self):
        return -self.bulge if self.turned else self.bulge

    def pocket_mm(self):
        return self.trim['pocket_mm'] if self.trim else 0


class Face:
    def __init__(self, surface, kind, parent=None, opening=None, side=None):
        self.surface = surface
        self.kind = kind
        self.parent = parent
        self.opening = opening
        self.side = side
        self.fields = []


class Field:
    """Part of a face with one board and one direction."""

    def __init__(self, face, zone, system, plan_field):
        surface = face.surface
        self.face = face
        self.zone = zone
        self.system = system
        self.rules = system.rules
        own = (zone or {}).get('board')
        self.board = system.board(own or surface.get('board'))
        direction = (zone or {}).get('direction_deg')
        self.direction = surface.get('direction_deg', 0) if direction is None else direction
        colour = (zone or {}).get('colour') or surface.get('colour')
        mix = zone['mix'] if zone and zone.get('mix') else None
        if mix is None and not (zone and zone.get('colour')):
            mix = surface.get('mix')
        self.mix = [share['colour'] for share in mix or []]
        known = {c['id']: c for c in self.board['colours']}
        self.colour = known.get(colour, self.board['colours'][0])
        self.lightness = [known[c].get('lightness', 'light') for c in self.mix if c in known]
        self.lightness.append(self.colour.get('lightness', 'light'))
        own_mix = bool(zone and (zone.get('mix') or zone.get('colour')))
        self.no_repeat = bool(self.mix) and (zone if own_mix else surface).get('no_repeat', False)
        laid_from = (zone or {}).get('laid_from', 'as-surface')
        if laid_from == 'as-surface':
            laid_from = surface.get('laid_from', 'left')
        turned = abs(self.direction - 90) < SAME_DEG and laid_from != 'right'
        self.hooked = (self.direction, turned)
        self.to_board = Affine.board_frame(-90 if turned else self.direction)
        self.to_surface = self.to_board.inverse_turn()
        self.plan = plan_field
        self.edges = {}
        self.upright = abs(abs(self.direction) - 90) < SAME_DEG
        self.fixed = (self.rules['upright_fixed'] if self.upright and face.kind == 'wall'
                      else 'middle')

    def add_edges(self):
        surface = self.face.surface
        for i, side in enumerate(corner_sides(surface['outline'])):
            self.add_edge(('outline', '', i), side, False)
        for opening in surface.get('openings', []):
            for i, side in enumerate(opening_sides(opening)):
                edge = self.add_edge(('opening', opening['id'], i), side, True)
                edge.trimless = opening.get('kind', 'window') in ('pipe', 'light')
        zones = surface.get('zones', [])
        first = zones.index(self.zone) if self.zone else 0
        for zone in zones[first:]:
            for i, side in enumerate(corner_sides(zone['corners'])):
                self.add_edge(('zone', zone['id'], i), side, zone is not self.zone)

    def add_edge(self, key, side, turned):
        self.edges[key] = Edge(key, side, turned)
        return self.edges[key]

    def holds(self, point):
        """Whether a point, by the raw lines, is this field's."""
        rings = {}
        for edge in self.edges.values():
            rings.setdefault(edge.key[:2], []).append(edge)
        return all(in_ring([e.raw for e in ring], point) != ring[0].turned
                   for ring in rings.values())

    def yields_to(self, edge):
        """A zone's side that lies on outline, openings or later zones all along has no stack of its
        own: the zone reaches as far as these let it. -> the edges it lies on"""
        if edge.zone is None:
            return []
        order = [zone['id'] for zone in self.face.surface.get('zones', [])]
        under, shared = [], 0
        for other in self.edges.values():
            later = other.zone is not None and order.index(other.zone) > order.index(edge.zone)
            length = shared_mm(edge.raw, other.line()) if other.zone is None or later else 0
            if length > 0 and not edge.bulge and not other.bulge:
                under.append(other)
                shared += length
        return under if shared > distance(*edge.raw) - SNAP_MM else []

    def inset(self, edge, line):
        if edge.yields:
            # Past whatever it lies on.
            reach = min(self.inset(other, line) for other in edge.yields) - 2 * SNAP_MM
            return -reach if edge.turned else reach
        inset = -edge.build_up
        if line != 'bare':
            inset += edge.clearance
        if line == 'pocket':
            inset += edge.back + edge.across + edge.absorbed
        return inset

    def region(self, line):
        """The area within one of the lines 'bare', 'clad' and 'pocket', in the surface's plane."""
        rings = {}
        for edge in self.edges.values():
            if line != 'bare' or edge.zone is None:
                rings.setdefault(edge.key[:2], []).append(edge)
        edges = []
        for ring in rings.values():
            sides = []
            for edge in ring[::-1] if ring[0].turned else ring:
                sides.append((*edge.line(), edge.bent(), self.inset(edge, line), edge.key))
            edges += moved_ring(sides)
        return Region(edges, 2 if self.zone and line != 'bare' else 1)

    def movement(self, site):
        """Strain to hottest and to coldest; of a mix, its darkest colour's (M1, M2, M3)."""
        data = self.system.data
        if data.get('swelling_percent', 0) > 0:
            per = data['swelling_percent'] / 100
            fixed = data.get('moisture_fixed', 16)
            return (max(0, per * (data.get('moisture_high', 20) - fixed)),
                    max(0, per * (fixed - data.get('moisture_low', 10))))
        facing = 0 if self.face.kind == 'soffit' else self.face.surface.get('facing_deg')
        shady = facing is not None and not 135 <= facing < 315
        sun = max(SUN_K[lightness][shady] for lightness in self.lightness)
        hottest = site.get('face_hottest_c', site.get('air_hottest_c', 35) + sun)
        coldest = site.get('face_coldest_c', site.get('air_coldest_c', -20))
        fixing = site.get('fixing_c', 15)
        alpha = data.get('expansion_mm_m_k', 0.07) / 1000
        return max(0, alpha * (hottest - fixing)), max(0, alpha * (fixing - coldest))

    def gap(self, clear, upper, butt=False):
        """R27, hot; R22 where boards meet without a trim."""
        need = self.expand * self.run(clear, upper) + self.rules['tolerance_mm']
        if butt:
            return max(self.rules['butt_gap_mm'], ceil(need - 1e-6))
        if self.fixed == 'top' and upper:
            return self.rules['fixed_end_gap_mm']
        return max(self.rules['min_gap_mm'], ceil(need - 1e-6))

    def joint_trim(self):
        """Only straight lines of length joints have a trim."""
        if self.plan['joint_pattern'] != 'columns':
            return None
        return self.system.trim(self.system.data.get('joint_trim', ''))

    def run(self, clear, upper):
        if self.fixed == 'top':
            return 0 if upper else clear
        return clear / 2

    def left_is_upper(self):
        """Upright boards whose axis points down have their left end on top."""
        return self.to_surface.numbers[3] < 0

    def longest_stock(self, house):
        return (max(s['length_mm'] for s in self.board['stock']) -
                2 * house.get('saw', {}).get('end_trim_mm', 0))


def lined(opening, side):
    reveal = opening.get('reveal')
    if reveal is None or side[2]:
        return False
    role = side_role(side)
    return reveal.get({'jamb': 'jambs'}.get(role, role), role != 'sill')


# Sides of a reveal's outline, and which of them is the arris.
LOWER, RIGHT, UPPER, LEFT = range(4)


def arris_of(side):
    role = side_role(side)
    if role == 'jamb':
        return LEFT if side[1][1] < side[0][1] else RIGHT
    return LOWER if role == 'sill' else UPPER


def reveal_surface(wall, opening, side):
    reveal, role, arris = opening['reveal'], side_role(side), arris_of(side)
    length, depth = distance(side[0], side[1]), reveal['depth_mm']
    upright = role == 'jamb'
    wide, high = (depth, length) if upright else (length, depth)
    along = reveal.get('boards', 'along') == 'along'
    direction = 90 if upright == along else 0
    system = reveal.get('system') or wall['system']
    same_system = system == wall['system']
    board = reveal.get('board') or (wall.get('board') if same_system else None)
    same_board = same_system and reveal.get('board') in (None, '', wall.get('board'))
    corners = [{'x': x, 'y': y, 'condition': 'side-stop'}
               for x, y in ((0, 0), (wide, 0), (wide, high), (0, high))]
    corners[arris]['condition'] = 'outside-corner'
    if upright and not reveal.get('sill'):
        corners[LOWER].update(condition='sill', clearance_mm=reveal.get('sill_rise_mm', 0))
    surface = {
        'outline': corners, 'system': system, 'board': board,
        'colour': reveal.get('colour') or (wall.get('colour') if same_board else None),
        'direction_deg': 180 if along and role == 'head' else direction,
        'laid_from': 'right' if arris == RIGHT else 'left',
        'build_up_mm': reveal.get('build_up_mm', 0),
        'level_mm': wall.get('level_mm', 0) + min(side[0][1], side[1][1]) if upright else 0,
    }
    if 'facing_deg' in wall:
        surface['facing_deg'] = wall['facing_deg']
    return surface


def end_of(side, at_end):
    """Which side of a lining's outline lies where its side of the opening ends or starts."""
    return {LOWER: (LEFT, RIGHT), RIGHT: (LOWER, UPPER), UPPER: (RIGHT, LEFT),
            LEFT: (UPPER, LOWER)}[arris_of(side)][at_end]


class House:
    """The house file and all that follows from it for each edge, but for the plan's phases."""

    def __init__(self, path, plan, shipped):
        self.data = load_json(path)
        self.plan = plan
        self.site = self.data.get('site', {})
        self.kerf = self.data.get('saw', {}).get('kerf_mm', 4)
        self.end_trim = self.data.get('saw', {}).get('end_trim_mm', 0)
        self.buying = {'spare_percent': 3, 'spare_least': 2, 'spare_trims': 1,
                       'spare_screws_percent': 5, **self.data.get('buying', {})}
        self.systems = load_systems(self.data, os.path.dirname(path), shipped)
        self.faces = []
        self.linings = []
        self.add_faces()
        self.fields = [field for face in self.faces for field in face.fields]
        self.tie_joins()
        self.tie_linings()
        for field in self.fields:
            field.expand, field.shrink = field.movement(self.site)
            for edge in field.edges.values():
                self.settle(field, edge)
        for field in self.fields:
            for edge, planned in zip(field.edges.values(), field.plan['edges']):
                self.stack(field, edge)
                # Where no board of this field lies along the edge nothing is absorbed; where one
                # does and the strip is cut after all, the courses show it.
                if planned['absorbed_mm']:
                    edge.absorbed = self.absorbed(field, edge)

    def add_faces(self):
        for surface in self.data['surfaces']:
            wall = Face(surface, surface.get('kind', 'wall'))
            self.faces.append(wall)
            for opening in surface.get('openings', []):
                for i, side in enumerate(opening_sides(opening)):
                    if lined(opening, side):
                        face = Face(reveal_surface(surface, opening, side), 'reveal', wall,
                                    opening['id'], side)
                        self.linings.append((face, ('opening', opening['id'], i)))
                        self.faces.append(face)
        planned = iter(self.plan['fields'])
        for face in self.faces:
            system = self.systems[face.surface['system']]
            for zone in [None] + face.surface.get('zones', []):
                field = Field(face, zone, system, next(planned))
                field.add_edges()
                face.fields.append(field)

    def tie(self, a, key_a, b, key_b, fold, carries, offset, derived):
        lengths = [distance(*face.fields[0].edges[key].raw)
                   for face, key in ((a, key_a), (b, key_b))]
        for face, key, other, other_key, by in ((a, key_a, b, key_b, offset),
                                                (b, key_b, a, key_a,
                                                 offset + lengths[0] - lengths[1])):
            for field in face.fields:
                edge = field.edges[key]
                edge.partner = (other, other_key)
                edge.fold, edge.carries, edge.offset = fold, carries, by
                edge.derived_join = derived

    def tie_joins(self):
        by_id = {face.surface['id']: face for face in self.faces if face.parent is None}
        for join in self.data.get('joins', []):
            ends = []
            for end in (join['a'], join['b']):
                face = by_id[end['surface']]
                index = next(i for i, c in enumerate(face.surface['outline'])
                             if c.get('edge') == end['edge'])
                ends += [face, ('outline', '', index)]
            self.tie(*ends, join.get('fold_deg', 90), join.get('carries_joints', True),
                     join.get('offset_mm', 0), False)

    def tie_linings(self):
        for face, key in self.linings:
            arris = ('outline', '', arris_of(face.side))
            self.tie(face.parent, key, face, arris, 90, True, 0, True)
            for after, after_key in self.linings:
                if (after is face or after.parent is not face.parent or after_key[1] != key[1] or
                        distance(face.side[1], after.side[0]) > SNAP_MM):
                    continue
                (ax, ay), (bx, by) = face.side[:2]
                (cx, cy), (dx, dy) = after.side[:2]
                turn = degrees(atan2(dy - cy, dx - cx) - atan2(by - ay, bx - ax))
                turn = turn + 360 if turn <= -180 else turn - 360 if turn > 180 else turn
                self.tie(face, ('outline', '', end_of(face.side, True)), after,
                         ('outline', '', end_of(after.side, False)), -turn, True, 0, True)

    def settle(self, field, edge):
        """Build-up round the corner (R16), and the condition."""
        face = field.face
        if edge.partner:
            other = edge.partner[0]
            own_mm, other_mm = (f.surface.get('build_up_mm', 0) for f in (face, other))
            theta = pi - radians(edge.fold)
            if abs(sin(theta)) >= sin(radians(SAME_DEG)):
                edge.build_up = (other_mm + own_mm * cos(theta)) / sin(theta)
            kinds = {face.kind, other.kind}
            if edge.condition == 'auto' or edge.derived_join:
                if kinds == {'wall', 'soffit'}:
                    edge.condition = 'ceiling-line'
                elif abs(edge.fold) > SAME_DEG:
                    edge.condition = 'outside-corner' if edge.fold > 0 else 'inside-corner'
                else:
                    edge.condition = 'mitre' if face.kind == 'soffit' else 'zone'
        elif edge.condition == 'auto':
            edge.condition = self.free_condition(face, edge)

    @staticmethod
    def free_condition(face, edge):
        (ax, ay), (bx, by) = edge.raw
        dx, slope = bx - ax, degrees(atan2(abs(by - ay), abs(bx - ax)))
        if edge.zone is not None:
            return 'zone'
        if edge.opening is not None:
            return side_role((edge.raw[0], edge.raw[1]))
        if slope > 90 - SAME_DEG or face.kind == 'reveal':
            return 'side-stop'
        if face.kind == 'soffit':
            return 'fascia' if dx < 0 else 'side-stop'
        if dx > 0:
            return 'base'
        return 'top' if slope < SAME_DEG else 'verge'

    def stack(self, field, edge):
        """Trim by the table, clearance, back, gap across; a starter's height follows from the joint
        lines: the lowest in its range (R7), else the next row without a starter (R12)."""
        a, b = (field.to_board(p) for p in edge.line())
        angle = degrees(atan2(abs(b[1] - a[1]), abs(b[0] - a[0])))
        straight = not edge.bulge
        edge.along = straight and angle < SAME_DEG
        edge.long_side = straight and angle < LONG_SIDE_DEG
        rules = field.rules
        if edge.trimless:
            edge.long_side = True
            edge.clearance = rules['notch_clear_mm']
            return
        edge.yields = field.yields_to(edge)
        if edge.yields or edge.zone is not None and edge.long_side and self.is_plain(field, edge):
            return
        self.find_trim(field, edge, edge.along and b[0] > a[0])
        edge.across = rules['gap_across_mm'] if edge.long_side else 0
        if edge.starter:
            surface = field.face.surface
            low = surface.get('starter_low_mm', edge.rule.get('starter_low_mm', 0))
            high = max(low, surface.get('starter_high_mm', edge.rule.get('starter_high_mm', 0)))
            base = field.to_board(shifted(*edge.line(), -edge.build_up)[0])[1]
            phase, cover = field.plan['phase_mm'], field.board['cover_mm']
            line = phase + ceil((base + low - phase - 0.05) / cover) * cover
            edge.clearance, edge.across = line - base, 0
            if edge.clearance > high + 0.05:
                self.find_trim(field, edge, False)
                edge.clearance = max(low, edge.clearance)
                edge.across = rules['gap_across_mm']

    @staticmethod
    def absorbed(field, edge):
        """Level boards of a wall: a strip that fits in what the pocket is deep beyond gap,
        engagement and error is not cut (R6). Elsewhere none is."""
        if not (edge.along and edge.trim) or edge.starter or field.face.kind != 'wall' or \
                abs(field.direction) > SAME_DEG:
            return 0
        rules, cover, phase = field.rules, field.board['cover_mm'], field.plan['phase_mm']
        inset = edge.clearance - edge.build_up + edge.back + edge.across
        a, b = (field.to_board(p) for p in shifted(*edge.line(), inset))
        strip = ((a[1] - phase) if b[0] < a[0] else (phase - a[1])) % cover
        most = (edge.trim.get('pocket_mm', 0) - rules['min_engagement_mm'] - edge.across -
                rules['tolerance_mm'])
        return strip if 1e-5 < strip <= most + 1e-6 else 0

    @staticmethod
    def is_plain(field, edge):
        """A border that changes nothing but the colour: the same board beyond, and the same way
        round."""
        within = next(f for f in field.face.fields if f.zone and f.zone['id'] == edge.zone)
        outside = shifted(*edge.raw, -0.5)
        for other in field.face.fields:
            same = other.board is within.board and other.hooked == within.hooked
            for n in range(64):
                t = (n + 0.5) / 64
                at = tuple(a + t * (b - a) for a, b in zip(*outside))
                if not same and other.holds(at):
                    return False
        return True

    @staticmethod
    def find_trim(field, edge, starters):
        relation = 'along' if edge.along else 'across'
        edge.rule = field.system.rule(field.face.kind, relation, edge.condition, starters)
        edge.trim = field.system.trim(edge.rule.get('trim')) if edge.rule else None
        edge.starter = bool(edge.rule and edge.rule.get('starter'))
        edge.back = edge.trim.get('back_mm', 0) if edge.trim else 0
        edge.clearance = edge.corner.get('clearance_mm',
                                         edge.rule.get('clearance_mm', 0) if edge.rule else 0)

    def match_mm(self, face, edge):
        """Where the end of the partner's edge lies, along this edge from its start."""
        other, key = edge.partner
        a, b = edge.line()
        facing = other.fields[0].edges[key]
        c, d = facing.line()
        plumb = abs(b[0] - a[0]) < SNAP_MM and abs(d[0] - c[0]) < SNAP_MM
        if plumb and 'soffit' not in (face.kind, other.kind):
            levels = [f.surface.get('level_mm', 0) for f in (face, other)]
            rise = levels[1] + d[1] - levels[0] - a[1]
            return rise if b[1] > a[1] else -rise
        return distance(a, b) + edge.offset - distance(c, d)
