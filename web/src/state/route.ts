// Which sheet lies on top: the address and nothing else says so.
import { computed, signal } from '@preact/signals';

export const kSheets = [
  { id: 'piece', name: 'Piece' },
  { id: 'text', name: 'Written' },
  { id: 'findings', name: 'Findings' },
  { id: 'price', name: 'Price' },
  { id: 'stock', name: 'Stock' },
  { id: 'bench', name: 'Bench' },
  { id: 'calendar', name: 'Calendar' },
  { id: 'papers', name: 'Papers' },
] as const;
export type SheetId = (typeof kSheets)[number]['id'];
export type Route = { sheet: 'shelf' } | { sheet: SheetId; id: string };

/** What an address shows; an address that is none of ours shows the shelf. */
export function route_of(path: string): Route {
  const match = path.match(/^\/c\/([a-zA-Z0-9_-]+)(?:\/([a-z]+))?\/?$/);
  if (!match?.[1]) return { sheet: 'shelf' };
  const sheet = kSheets.find((one) => one.id === (match[2] ?? 'piece'));
  return { sheet: sheet?.id ?? 'piece', id: match[1] };
}

export function address_of(id: string, sheet: SheetId): string {
  return sheet === 'piece' ? `/c/${id}` : `/c/${id}/${sheet}`;
}

const path = signal(typeof location === 'undefined' ? '/' : location.pathname);
export const route = computed(() => route_of(path.value));

export function go(to: string): void {
  if (to !== location.pathname + location.search) history.pushState(null, '', to);
  path.value = location.pathname;
  window.scrollTo(0, 0);
}

/** Links inside the pages turn the sheet instead of loading anew. */
export function watch_addresses(): void {
  addEventListener('popstate', () => { path.value = location.pathname; });
  document.addEventListener('click', (event) => {
    const link = (event.target as Element).closest?.('a[href^="/"]');
    if (!link || event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey) return;
    const href = link.getAttribute('href') ?? '/';
    if (href.startsWith('/api/') || link.hasAttribute('download') || link.hasAttribute('target')) return;
    event.preventDefault();
    go(href);
  });
}
