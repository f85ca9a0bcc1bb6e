// Boxes seen from the front, left and above, far ones first, so that near ones cover them.
type Triple = readonly [number, number, number];
export type Solid = { at: Triple; size: Triple; code: string; move: Triple };
export type Face = { points: Array<[number, number]>; side: 'top' | 'front' | 'left' };
export type Drawn = { faces: Face[]; code: string; centre: [number, number]; home: [number, number]; moved: boolean };

const [kTurn, kLift] = [(32 * Math.PI) / 180, (24 * Math.PI) / 180]; // as on the papers
const [kAcross, kAway, kUp, kDown] = [Math.cos(kTurn), Math.sin(kTurn), Math.cos(kLift), Math.sin(kLift)];

/** How far away along the line of sight, which goes to the right, back and down. */
const depth_at = ([x, y, z]: Triple) => (x * kAway + y * kAcross) * kUp - z * kDown;

/** x to the right, y to the back, z up: square to the line of sight; on the paper the second axis goes down. */
export const projected = ([x, y, z]: Triple): [number, number] => [x * kAcross - y * kAway, -(x * kAway + y * kAcross) * kDown - z * kUp];

const plus = (a: Triple, b: Triple): Triple => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const place = (solid: Solid): Triple => plus(solid.at, solid.move);

/** Whether `a` is farther from the eye than `b`: behind, to the right, or below it. Null where neither. */
export function is_behind(a: Solid, b: Solid): boolean | null {
  const [from_a, from_b] = [place(a), place(b)];
  const slack = 0.01;
  const past = (axis: 0 | 1 | 2, low: Triple, size: Triple, high: Triple) => low[axis] + size[axis] <= high[axis] + slack;
  if (past(1, from_b, b.size, from_a) || past(0, from_b, b.size, from_a) || past(2, from_a, a.size, from_b)) {
    // Apart along several axes in opposite senses: then they hardly cover each other and any order will do.
    const other = past(1, from_a, a.size, from_b) || past(0, from_a, a.size, from_b) || past(2, from_b, b.size, from_a);
    return other ? depth(a) > depth(b) : true;
  }
  if (past(1, from_a, a.size, from_b) || past(0, from_a, a.size, from_b) || past(2, from_b, b.size, from_a)) return false;
  return null;
}

const depth = (solid: Solid) => depth_at(plus(place(solid), [solid.size[0] / 2, solid.size[1] / 2, solid.size[2] / 2]));

/** Far to near: nothing is drawn before all that is behind it; where that goes round in a ring, the farthest first. */
export function far_first(solids: readonly Solid[]): Solid[] {
  const left = [...solids].sort((a, b) => depth(b) - depth(a));
  const drawn: Solid[] = [];
  while (left.length > 0) {
    const free = left.findIndex((one) => left.every((other) => other === one || is_behind(other, one) !== true));
    drawn.push(...left.splice(Math.max(0, free), 1));
  }
  return drawn;
}

function faces_of(at: Triple, [long, deep, high]: Triple): Face[] {
  const p = (x: number, y: number, z: number) => projected([at[0] + x, at[1] + y, at[2] + z]);
  return [
    { side: 'left', points: [p(0, 0, 0), p(0, deep, 0), p(0, deep, high), p(0, 0, high)] },
    { side: 'front', points: [p(0, 0, 0), p(long, 0, 0), p(long, 0, high), p(0, 0, high)] },
    { side: 'top', points: [p(0, 0, high), p(long, 0, high), p(long, deep, high), p(0, deep, high)] },
  ];
}

export function drawn_apart(solids: readonly Solid[]): Drawn[] {
  return far_first(solids).map((solid) => {
    const half: Triple = [solid.size[0] / 2, solid.size[1] / 2, solid.size[2] / 2];
    return {
      faces: faces_of(place(solid), solid.size), code: solid.code, centre: projected(plus(place(solid), half)), home: projected(plus(solid.at, half)),
      moved: Math.hypot(...solid.move) > 1,
    };
  });
}

/** What holds all points, with a margin. */
export function frame_of(points: ReadonlyArray<readonly [number, number]>, margin: number): { x: number; y: number; wide: number; high: number } {
  const [xs, ys] = [points.map((one) => one[0]), points.map((one) => one[1])];
  const [x, y] = [Math.min(...xs) - margin, Math.min(...ys) - margin];
  return { x, y, wide: Math.max(...xs) + margin - x, high: Math.max(...ys) + margin - y };
}
