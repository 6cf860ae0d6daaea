// Where a point that is touched lies on the track that is there; y downward.
import { clamp, dot, far, minus, plus, times, unit } from './curve.js';

export function placeOn(points, at) {
  let best = null;
  for (let i = 1; i < points.length; i++) {
    const step = minus(points[i], points[i - 1]);
    const square = dot(step, step);
    if (square === 0) continue;
    const share = clamp(dot(minus(at, points[i - 1]), step) / square, 0, 1);
    const place = plus(points[i - 1], times(step, share));
    if (!best || far(place, at) < far(best, at)) best = { ...place, dir: unit(step), snap: 'line' };
  }

  return best;
}

export function nearest(places, at, reach) {
  let best = null;
  for (const place of places) if (far(place, at) < (best ? far(best, at) : reach)) best = place;
  return best;
}
