// Which words an error stands under.
import type { WrittenError } from '../api/server';

/** From the place of the error to the end of the word or value that begins there. */
export function extent_of(text: string, error: Pick<WrittenError, 'line' | 'column'>): { from: number; to: number } {
  const lines = text.split('\n');
  const row = Math.min(Math.max(1, error.line), lines.length) - 1;
  const start = lines.slice(0, row).reduce((sum, line) => sum + line.length + 1, 0);
  const line = lines[row] ?? '';
  const column = Math.min(Math.max(1, error.column) - 1, line.length);
  const word = line.slice(column).match(/^(?:"[^"]*"|'[^']*'|[^,{}[\]#:]+|.)/)?.[0].trimEnd() ?? '';
  const from = start + column;
  return { from, to: Math.min(from + Math.max(1, word.length), start + Math.max(line.length, column)) };
}
