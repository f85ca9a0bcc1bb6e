import { plan } from '../state/open';

/** The codes of some parts, each once, at most six of them. */
export function open_parts(paths: readonly string[]): string {
  const code = new Map(plan.value?.piece.parts.map((part) => [part.path, `${part.code} ${part.name}`]) ?? []);
  const names = [...new Set(paths.map((path) => code.get(path) ?? ''))].filter(Boolean);
  return names.length > 3 ? `${names.slice(0, 3).join(', ')} and ${names.length - 3} more` : names.join(', ');
}
