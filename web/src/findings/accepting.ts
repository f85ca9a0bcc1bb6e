// Setting a finding aside in the text, with the reason.

/** A reason in quotes that YAML reads back as it is. */
const quoted = (words: string) => `"${words.replaceAll('\\', '\\\\').replaceAll('"', '\\"').replaceAll(/\s+/g, ' ').trim()}"`;

/** The text with finding `id` dismissed for `reason`. Null when `dismissed` is written in a way that only
 *  its writer should touch. */
export function with_acceptance(text: string, id: string, reason: string): string | null {
  const item = `  - {finding: ${id}, reason: ${quoted(reason)}}`;
  const lines = text.split('\n');
  const at = lines.findIndex((line) => /^dismissed\s*:/.test(line));
  if (at < 0) return `${text.replace(/\n*$/, '\n')}\ndismissed:\n${item}\n`;
  const line = lines[at]!;
  const empty = line.match(/^dismissed\s*:\s*\[\s*\]\s*(#.*)?$/);
  if (empty) lines.splice(at, 1, `dismissed:${empty[1] ? `  ${empty[1]}` : ''}`, item);
  else if (/^dismissed\s*:\s*(#.*)?$/.test(line)) lines.splice(at + 1, 0, item.replace(/^ {2}/, ' '.repeat(indent_below(lines, at))));
  else return null;
  return lines.join('\n');
}

/** How far the items that stand there already are indented. */
function indent_below(lines: readonly string[], at: number): number {
  const item = lines.slice(at + 1).find((line) => line.trim() !== '' && !line.trim().startsWith('#'));
  return item?.match(/^( *)- /)?.[1]?.length ?? 2;
}

/** What a maker mostly does about it, to begin with. */
export const usual_reason = (kind: string): string => (kind === 'tip_over' ? 'Anchored to the wall; the client is told in writing that it must stay anchored' : '');
