// A package carried round a corner: flat, on its longest sides. The least room at the inner corner
// while it turns, for a corridor `width` wide that goes on `beyond` wide.

/** Room left at the inner corner at an angle: the distance from the corner to the line through the
 *  package's outer side when both its ends touch the outer walls, less how broad it is. */
export function room_at(angle: number, long: number, broad: number, width: number, beyond: number): number {
  const [sine, cosine] = [Math.sin(angle), Math.cos(angle)];
  return width * cosine + beyond * sine - long * sine * cosine - broad;
}

export function tightest(long: number, broad: number, width: number, beyond: number): { angle: number; room: number } {
  let best = { angle: 0, room: Infinity };
  for (let step = 0; step <= 900; step++) {
    const angle = (step / 900) * (Math.PI / 2);
    const room = room_at(angle, long, broad, width, beyond);
    if (room < best.room) best = { angle, room };
  }
  return best;
}
