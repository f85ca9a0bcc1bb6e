// Two texts side by side: which lines are not in the other.
export type Line = { text: string; other: boolean };

/** Marks the lines that differ, by the longest run of lines that both have in the same order. */
export function differing_lines(left: string, right: string): [Line[], Line[]] {
  const [a, b] = [left.split('\n'), right.split('\n')];
  let [from, a_to, b_to] = [0, a.length, b.length];
  while (from < a_to && from < b_to && a[from] === b[from]) from++;
  while (a_to > from && b_to > from && a[a_to - 1] === b[b_to - 1]) { a_to--; b_to--; }
  const [in_a, in_b] = common(a.slice(from, a_to), b.slice(from, b_to));
  const marked = (lines: string[], to: number, shared: Set<number>): Line[] =>
    lines.map((text, at) => ({ text, other: at >= from && at < to && !shared.has(at - from) }));
  return [marked(a, a_to, in_a), marked(b, b_to, in_b)];
}

function common(a: string[], b: string[]): [Set<number>, Set<number>] {
  const [in_a, in_b] = [new Set<number>(), new Set<number>()];
  if (a.length * b.length > 4_000_000) return [in_a, in_b];
  const longest = Array.from({ length: a.length + 1 }, () => new Uint16Array(b.length + 1));
  for (let i = a.length - 1; i >= 0; i--) {
    for (let j = b.length - 1; j >= 0; j--) {
      longest[i]![j] = a[i] === b[j] ? longest[i + 1]![j + 1]! + 1 : Math.max(longest[i + 1]![j]!, longest[i]![j + 1]!);
    }
  }
  for (let i = 0, j = 0; i < a.length && j < b.length;) {
    if (a[i] === b[j]) { in_a.add(i++); in_b.add(j++); }
    else if (longest[i + 1]![j]! >= longest[i]![j + 1]!) i++;
    else j++;
  }
  return [in_a, in_b];
}
