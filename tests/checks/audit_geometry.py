# SPDX-License-Identifier: GPL-3.0-or-later
"""Plane geometry of the plan's checker. It shares no code and no method with the program: areas are
kept as the edges that have clad area on one side and none on the other, found edge by edge with
winding numbers, and are measured slab by slab."""
from math import acos, atan, ceil, copysign, cos, hypot, pi, sin

# Greatest distance of a chord from its arc, and half the widest angle of one chord: how arcs become
# corners is part of what a plan says of them.
SAGITTA_MM = 0.25
WIDEST_STEP = pi / 8
# Beyond this many times their distance, the meeting point of two moved sides is no corner.
SPIKE_RATIO = 20
# How far from an edge its two sides are probed: well under the 0.1 mm that count as one point.
PROBE_MM = 0.004
THIN_MM = 0.02


class Affine:
    """x' = xx·x + xy·y + x0, y' = yx·x + yy·y + y0"""

    def __init__(self, numbers):
        self.numbers = tuple(numbers)

    def __call__(self, point):
        xx, xy, x0, yx, yy, y0 = self.numbers
        return (xx * point[0] + xy * point[1] + x0, yx * point[0] + yy * point[1] + y0)

    @classmethod
    def board_frame(cls, degrees):
        """Turns the surface so that boards at this angle run along +x."""
        quarter = {0: (1, 0), 90: (0, 1), -90: (0, -1), 180: (-1, 0)}
        c, s = quarter.get(degrees, (cos(degrees * pi / 180), sin(degrees * pi / 180)))
        return cls((c, s, 0, -s, c, 0))

    def inverse_turn(self):
        xx, xy, _, yx, yy, _ = self.numbers
        return Affine((xx, yx, 0, xy, yy, 0))


def distance(a, b):
    return hypot(b[0] - a[0], b[1] - a[1])


def ring_area(ring):
    """Signed; about the first corner, so that far away rings lose no figures."""
    ox, oy = ring[0][:2]
    return sum((a[0] - ox) * (b[1] - oy) - (b[0] - ox) * (a[1] - oy)
               for a, b in zip(ring, ring[1:] + ring[:1])) / 2


def chords(start, end, bulge):
    """Corners of the polygon that stands for an arc, from start up to but without end."""
    chord = distance(start, end)
    if abs(bulge) < 1e-9 or chord < 1e-6:
        return [start]
    half = 2 * atan(abs(bulge))
    radius = chord / (2 * sin(half))
    reach = copysign(radius * cos(half), bulge) / chord
    cx = (start[0] + end[0]) / 2 - reach * (end[1] - start[1])
    cy = (start[1] + end[1]) / 2 + reach * (end[0] - start[0])
    widest = acos(1 - SAGITTA_MM / radius) if radius > SAGITTA_MM else WIDEST_STEP
    count = max(1, ceil(half / min(widest, WIDEST_STEP)))
    points = []
    for i in range(count):
        turn = copysign(2 * half * i / count, bulge)
        dx, dy = start[0] - cx, start[1] - cy
        points.append((cx + dx * cos(turn) - dy * sin(turn), cy + dx * sin(turn) + dy * cos(turn)))
    return points


def meeting(a, b, c, d):
    """Where the endless lines ab and cd meet; None when as good as parallel."""
    ax, ay, bx, by = b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]
    cross = ax * by - ay * bx
    if abs(cross) < 1e-9 * hypot(ax, ay) * hypot(bx, by):
        return None
    t = ((c[0] - a[0]) * by - (c[1] - a[1]) * bx) / cross
    return (a[0] + t * ax, a[1] + t * ay)


def shifted(start, end, inwards):
    """The line moved to its left."""
    length = distance(start, end)
    nx, ny = -(end[1] - start[1]) / length * inwards, (end[0] - start[0]) / length * inwards
    return (start[0] + nx, start[1] + ny), (end[0] + nx, end[1] + ny)


def moved_ring(sides):
    """[(from, to, bulge, inset, tag)] of a closed ring -> [(a, b, tag)], every side moved to its
    left by its own inset and neighbours brought to meet."""
    lines = []
    for start, end, bulge, inset, tag in sides:
        points = chords(start, end, bulge) + [end]
        for a, b in zip(points, points[1:]):
            if distance(a, b) > 1e-6:
                lines.append((*shifted(a, b, inset), inset, tag))
    corners = []
    for i, (a, b, inset, tag) in enumerate(lines):
        p, q, last_inset, last_tag = lines[i - 1]
        at = meeting(p, q, a, b)
        if at is not None and distance(at, q) <= SPIKE_RATIO * (abs(last_inset) + abs(inset) + 1):
            corners.append((at, tag))
        else:
            corners += [(q, last_tag), (a, tag)]
    return [(at, corners[(i + 1) % len(corners)][0], tag) for i, (at, tag) in enumerate(corners)]


def winding(edges, x, y):
    total = 0
    for (ax, ay), (bx, by), _ in edges:
        if (ay > y) != (by > y):
            if ax + (y - ay) / (by - ay) * (bx - ax) > x:
                total += 1 if by > ay else -1
    return total


def cuts_of(edge, other):
    """Parameters along edge at which other crosses it, touches it or begins to lie on it."""
    (ax, ay), (bx, by), _ = edge
    (cx, cy), (dx, dy), _ = other
    ux, uy, length = bx - ax, by - ay, hypot(bx - ax, by - ay)
    side_c = (ux * (cy - ay) - uy * (cx - ax)) / length
    side_d = (ux * (dy - ay) - uy * (dx - ax)) / length
    found = []
    if abs(side_c) < 1e-4:
        found.append(((cx - ax) * ux + (cy - ay) * uy) / length ** 2)
    if abs(side_d) < 1e-4:
        found.append(((dx - ax) * ux + (dy - ay) * uy) / length ** 2)
    if not found and (side_c > 0) != (side_d > 0):
        part = side_c / (side_c - side_d)
        px, py = cx + part * (dx - cx), cy + part * (dy - cy)
        found.append(((px - ax) * ux + (py - ay) * uy) / length ** 2)
    return [t for t in found if 1e-9 < t < 1 - 1e-9]


class Region:
    """Where the winding number is at least a threshold, as edges with the area on their left."""

    def __init__(self, edges, threshold):
        self.segments = []
        edges = [edge for edge in edges if distance(edge[0], edge[1]) > 1e-6]
        boxes = [(min(a[0], b[0]) - 1e-3, min(a[1], b[1]) - 1e-3, max(a[0], b[0]) + 1e-3,
                  max(a[1], b[1]) + 1e-3) for a, b, _ in edges]
        seen = {}
        for i, edge in enumerate(edges):
            (ax, ay), (bx, by), tag = edge
            box = boxes[i]
            cuts = {0.0, 1.0}
            for k, other in enumerate(edges):
                near = boxes[k]
                if (k != i and near[0] <= box[2] and box[0] <= near[2] and near[1] <= box[3] and
                        box[1] <= near[3]):
                    cuts.update(cuts_of(edge, other))
            cuts = sorted(cuts)
            length = hypot(bx - ax, by - ay)
            for t0, t1 in zip(cuts, cuts[1:]):
                if (t1 - t0) * length < 1e-4:
                    continue
                mx, my = ax + (t0 + t1) / 2 * (bx - ax), ay + (t0 + t1) / 2 * (by - ay)
                nx, ny = -(by - ay) / length * PROBE_MM, (bx - ax) / length * PROBE_MM
                left = winding(edges, mx + nx, my + ny) >= threshold
                right = winding(edges, mx - nx, my - ny) >= threshold
                if left == right:
                    continue
                start = (ax + t0 * (bx - ax), ay + t0 * (by - ay))
                end = (ax + t1 * (bx - ax), ay + t1 * (by - ay))
                if right:
                    start, end = end, start
                key = (round(start[0], 2), round(start[1], 2), round(end[0], 2), round(end[1], 2))
                if key in seen:
                    seen[key][3].append(tag)
                    continue
                segment = (start, end, tag, [tag])
                seen[key] = segment
                self.segments.append(segment)

    def mapped(self, affine):
        copy = Region([], 1)
        copy.segments = [(affine(a), affine(b), tag, tags) for a, b, tag, tags in self.segments]
        return copy

    def area(self):
        if not self.segments:
            return 0.0
        ox, oy = self.segments[0][0]
        return sum((a[0] - ox) * (b[1] - oy) - (b[0] - ox) * (a[1] - oy)
                   for a, b, _, _ in self.segments) / 2

    def extent(self):
        xs = [p[0] for a, b, _, _ in self.segments for p in (a, b)]
        ys = [p[1] for a, b, _, _ in self.segments for p in (a, b)]
        return min(xs), min(ys), max(xs), max(ys)


def at_height(segment, y):
    (ax, ay), (bx, by) = segment[0], segment[1]
    return ax + (y - ay) / (by - ay) * (bx - ax)


def spans_at(segments, y):
    """Where a level line lies in the area: [(left x, right x, left segment, right segment)]. The
    area lies left of its edges, so that it begins at one that falls and ends at one that climbs."""
    crossed = sorted(((at_height(s, y), s) for s in segments if (s[0][1] > y) != (s[1][1] > y)),
                     key=lambda pair: pair[0])
    return [(crossed[i][0], crossed[i + 1][0], crossed[i][1], crossed[i + 1][1])
            for i in range(0, len(crossed) - 1, 2)]


def breaks_in(low, high, *places):
    """Heights at which something changes between low and high, thin slabs left out."""
    heights = [low]
    for y in sorted(y for y in places if low + THIN_MM < y < high - THIN_MM):
        if y > heights[-1] + THIN_MM:
            heights.append(y)
    return heights + [high]
