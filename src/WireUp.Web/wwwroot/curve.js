// Curves of track through points of the plan, in millimetres, y downward.
const tolerance = 2; // of a curve against its flat pieces

// A smooth line through points, flattened. Its direction at a point is that of the circle through it and its neighbours; where it
// begins or ends at track it leaves in the direction of that track.
export function curve(points, isClosed = false) {
  const knots = points.filter((at, i) => i === 0 || far(at, points[i - 1]) > 0.01);
  if (knots.length < 2) return knots;
  const ways = directions(knots, isClosed);
  const line = [knots[0]];
  for (let i = 1; i < knots.length; i++) line.push(...bend(knots[i - 1], ways[i - 1], knots[i], ways[i]));
  return line;
}

function directions(knots, isClosed) {
  const last = knots.length - 1;
  const ways = knots.map((at, i) => (i > 0 && i < last ? throughThree(knots[i - 1], at, knots[i + 1]) : null));
  if (isClosed && !knots[0].dir) {
    ways[0] = ways[last] = throughThree(knots[last - 1], knots[0], knots[1]);
    return ways;
  }

  const chordOut = unit(minus(knots[1], knots[0]));
  const chordIn = unit(minus(knots[last], knots[last - 1]));
  ways[0] = leaving(knots[0], chordOut);
  ways[last] = arriving(knots[last], chordIn);
  ways[0] ??= last === 1 && !ways[last] ? chordOut : mirrored(ways[1], chordOut);
  ways[last] ??= mirrored(ways[last - 1], chordIn);
  return ways;
}

// Out of an end of track; of a place on a line, to that side of the two to which the drawing goes on.
function leaving(at, chord) {
  if (!at.dir) return null;
  return at.snap === 'line' && dot(at.dir, chord) < 0 ? times(at.dir, -1) : at.dir;
}

function arriving(at, chord) {
  if (!at.dir) return null;
  const away = at.snap === 'line' ? at.dir : times(at.dir, -1);
  return at.snap === 'line' && dot(away, chord) < 0 ? times(away, -1) : away;
}

function throughThree(before, at, after) {
  const [a, b] = [minus(at, before), minus(after, at)];
  const ratio = Math.hypot(b.x, b.y) / Math.hypot(a.x, a.y);
  return unit({ x: a.x * ratio + b.x / ratio, y: a.y * ratio + b.y / ratio });
}

// The direction at the other end of an arc.
function mirrored(way, chord) {
  const along = 2 * dot(way, chord);
  return { x: chord.x * along - way.x, y: chord.y * along - way.y };
}

// One bend, close to an arc where both directions belong to one; flat pieces within the tolerance.
function bend(from, way0, to, way1) {
  const chord = minus(to, from);
  const straight = unit(chord);
  const lean = (Math.acos(clamp(dot(way0, straight), -1, 1)) + Math.acos(clamp(dot(way1, straight), -1, 1))) / 2;
  const reach = Math.hypot(chord.x, chord.y) * (2 / 3) / (1 + Math.max(Math.cos(lean), -0.5));
  const p1 = plus(from, times(way0, reach));
  const p2 = minus(to, times(way1, reach));
  const swing = Math.max(second(from, p1, p2), second(p1, p2, to));
  const steps = clamp(Math.ceil(Math.sqrt(0.75 * swing / tolerance)), 1, 64);
  return Array.from({ length: steps }, (_, i) => (i + 1 === steps ? to : onBend(from, p1, p2, to, (i + 1) / steps)));
}

function onBend(p0, p1, p2, p3, t) {
  const u = 1 - t;
  const [a, b, c, d] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
  return { x: a * p0.x + b * p1.x + c * p2.x + d * p3.x, y: a * p0.y + b * p1.y + c * p2.y + d * p3.y };
}

export const clamp = (value, least, most) => Math.min(Math.max(value, least), most);
export const minus = (a, b) => ({ x: a.x - b.x, y: a.y - b.y });
export const plus = (a, b) => ({ x: a.x + b.x, y: a.y + b.y });
export const times = (a, factor) => ({ x: a.x * factor, y: a.y * factor });
export const dot = (a, b) => a.x * b.x + a.y * b.y;
export const far = (a, b) => Math.hypot(a.x - b.x, a.y - b.y);
const second = (a, b, c) => Math.hypot(a.x - 2 * b.x + c.x, a.y - 2 * b.y + c.y);

export function unit(a) {
  const length = Math.hypot(a.x, a.y);
  return length > 0 ? { x: a.x / length, y: a.y / length } : { x: 1, y: 0 };
}
