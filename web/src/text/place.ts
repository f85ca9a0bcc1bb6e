// Where in a written commission one is: which keys lead there. Tolerant, since it is asked while the
// text is half written.
export type Place = {
  /** Keys from the top; "[]" for an entry of a list. */
  path: string[];
  /** The key whose value is being written; absent where a key is wanted. */
  key?: string;
  /** What of the word is there already. */
  word: string;
};

type Level = { indent: number; key: string };

function block_levels(lines: readonly string[], row: number, indent: number): Level[] {
  const levels: Level[] = [];
  let limit = indent;
  for (let at = row - 1; at >= 0 && limit > 0; at--) {
    const line = lines[at] ?? '';
    const match = line.match(/^(\s*)((?:- )*)([A-Za-z_][\w]*):\s*(?:#.*)?$/);
    const entry = line.match(/^(\s*)- (?=\S)/);
    if (entry && entry[1]!.length < limit && (!match || match[1]!.length + match[2]!.length >= limit)) {
      levels.unshift({ indent: entry[1]!.length, key: '[]' });
      limit = entry[1]!.length + (entry[1]!.length === 0 ? 0 : 0.5);
      continue;
    }
    if (!match || line.trim() === '') continue;
    const at_indent = match[1]!.length + match[2]!.length;
    if (at_indent >= limit) continue;
    levels.unshift({ indent: at_indent, key: match[3]! });
    limit = at_indent;
    if (match[2]) { levels.unshift({ indent: match[1]!.length, key: '[]' }); limit = match[1]!.length + 0.5; }
  }
  return levels;
}

/** Keys of the braces that are open at the end of `line`. */
function flow_levels(line: string): { keys: string[]; tail: string } {
  const keys: string[] = [];
  let [tail, quoted] = ['', ''];
  for (const letter of line) {
    if (quoted) { if (letter === quoted) quoted = ''; tail += letter; continue; }
    if (letter === '"' || letter === "'") { quoted = letter; tail += letter; continue; }
    if (letter === '{' || letter === '[') {
      const key = tail.match(/([A-Za-z_]\w*):\s*$/)?.[1];
      keys.push(key ?? '', letter === '[' ? '[]' : '');
      tail = '';
    } else if (letter === '}' || letter === ']') {
      keys.splice(-2);
      tail = '';
    } else if (letter === ',') tail = '';
    else tail += letter;
  }
  return { keys: keys.filter(Boolean), tail };
}

export function place_at(text: string, offset: number): Place {
  const before = text.slice(0, offset).split('\n');
  let row = before.length - 1;
  let line = before[row] ?? '';
  // A flow value may have begun some lines above.
  const open_braces = (from: string) => flow_levels(from).keys.length;
  let start = row;
  for (let up = row - 1; up >= Math.max(0, row - 8) && /^\s+\S/.test(before[up + 1] ?? ''); up--) {
    const joined = before.slice(up, row + 1).join(' ');
    if (open_braces(joined) > 0 && open_braces(before[up] ?? '') > 0) start = up;
  }
  if (start < row) { line = before.slice(start, row + 1).join(' '); row = start; }
  const lead = line.match(/^(\s*)((?:- )*)/);
  const indent = (lead?.[1]?.length ?? 0) + (lead?.[2]?.length ?? 0);
  const levels = block_levels(before, row, lead?.[2] ? (lead[1]?.length ?? 0) + 0.5 : indent);
  const path = levels.map((level) => level.key);
  if (lead?.[2]) path.push('[]');
  const { keys, tail } = flow_levels(line.slice(indent));
  const all = [...path, ...keys];
  const value = tail.match(/^\s*([A-Za-z_]\w*):\s+(\S*)$/);
  if (value) return { path: all, key: value[1]!, word: value[2] ?? '' };
  return { path: all, word: tail.trim() };
}
