# SPDX-License-Identifier: GPL-3.0-or-later
"""Order of fitting and colours of a plan, against what the house file asks for; shares no code with
the program."""

SAME_MM = 0.5


def extent(piece):
    xs = [x for ring in piece.rings for x, _ in ring]
    return min(xs), max(xs)


def comes_first(field, one, other):
    """Whether a piece of a field that is laid from one side has to be fitted before another, rule
    R30. Slanting pieces of one course that lie over each other may come in either order."""
    if one.data['course'] != other.data['course']:
        return one.data['course'] < other.data['course']
    downwards = field.to_surface((1, 0))[1] < field.to_surface((0, 0))[1] - 1e-6
    left, right = (other, one) if downwards else (one, other)
    return extent(left)[1] < extent(right)[0] + SAME_MM


def check_field(field, pieces, report):
    planned, cover = field.plan, field.board['cover_mm']
    from_centre = planned['laid_from'] == 'centre' and field.board.get('flange_mm', 0) == 0
    if not from_centre and any(comes_first(field, one, other) and
                               one.data['sequence'] > other.data['sequence']
                               for one in pieces for other in pieces if one is not other):
        report.fault(f'{planned["face"]}: not numbered in the order of fitting')
    ripped = [piece.data for piece in pieces
              if piece.data['low_mm'] > SAME_MM or piece.data['high_mm'] < cover - SAME_MM]
    last = max(ripped, key=lambda data: data['sequence'])['course'] if ripped else 0
    if planned['last_ripped_course'] != last:
        report.fault(f'{planned["face"]}: course {planned["last_ripped_course"]} is not the one '
                     f'ripped last, which is {last}')


def touch(one, other, line):
    """Whether boards on both sides of a joint line share a stretch of it."""
    spans = [[x for ring in piece.rings for x, y in ring if abs(y - line) < SAME_MM]
             for piece in (one, other)]
    if not all(spans):
        return False
    return min(max(xs) for xs in spans) - max(min(xs) for xs in spans) > SAME_MM


def is_followed(field, one, other):
    """Whether two boards of a course meet at a length joint: no more than a trim between them."""
    ends = sorted((min(x for ring in p.rings for x, _ in ring),
                   max(x for ring in p.rings for x, _ in ring)) for p in (one, other))
    joints = field.plan['columns_mm'] + [joint['at_mm'] for joint in field.plan['length_joints']]
    return any(ends[0][1] - SAME_MM < at < ends[1][0] + SAME_MM and ends[1][0] - ends[0][1] < 100
               for at in joints)


def check_colours(field, pieces, findings, report):
    told = any(finding['id'] == 'colour-repeats' for finding in findings)
    phase, cover = field.plan['phase_mm'], field.board['cover_mm']
    for i, one in enumerate(pieces):
        for other in pieces[i + 1:]:
            if one.data['colour'] != other.data['colour']:
                continue
            apart = other.data['course'] - one.data['course']
            line = phase + cover * round((other.bottom - other.data['low_mm'] - phase) / cover)
            alike = (apart == 0 and is_followed(field, one, other) or
                     apart == 1 and touch(one, other, line))
            if alike and not told:
                report.fault(f'{one.mark} and {other.mark} are alike and no finding')


def check_laying(house, boards, report):
    """Pieces of each face are numbered from 1; neighbours differ where that is asked for."""
    numbers = {}
    for field, pieces in boards:
        own = numbers.setdefault(field.plan['face'], [])
        own += [piece.data['sequence'] for piece in pieces]
        check_field(field, pieces, report)
        if field.no_repeat:
            findings = [finding for finding in house.plan['findings']
                        if finding.get('face') == field.plan['face']]
            check_colours(field, pieces, findings, report)
    for face, own in numbers.items():
        if sorted(own) != list(range(1, len(own) + 1)):
            report.fault(f'{face}: pieces are not numbered from 1 to {len(own)}')
