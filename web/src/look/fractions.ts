// Finds the fractions in a line so that they can be set as fractions.
export type Piece = { text: string; fraction: boolean };

/** "6.8 m2" as 6.8 m². */
export const raised = (line: string) => line.replace(/(\d ?m)([23])(?![\w/])/g, (_, before: string, power: string) => before + (power === '2' ? '²' : '³'));

/** "1 3/4 in" is "1", a set 3/4, " in". Quarters of a rough board (4/4, 8/4) and dates stay as written. */
export function pieces_of(written: string): Piece[] {
  const line = raised(written);
  const pieces: Piece[] = [];
  let from = 0;
  for (const match of line.matchAll(/(?<![\d/.])( ?)(\d{1,2})\/(\d{1,3})(?![\d/])/g)) {
    const [top, bottom] = [Number(match[2]), Number(match[3])];
    if (top >= bottom || ![2, 4, 8, 16, 32, 64, 3, 6, 360].includes(bottom)) continue;
    const begins = match.index + (match[1]?.length ?? 0);
    const behind_number = match[1] === ' ' && /\d$/.test(line.slice(0, match.index));
    pieces.push({ text: line.slice(from, behind_number ? match.index : begins), fraction: false });
    pieces.push({ text: `${match[2]}/${match[3]}`, fraction: true });
    from = match.index + match[0].length;
  }
  pieces.push({ text: line.slice(from), fraction: false });
  return pieces.filter((piece) => piece.text !== '');
}
