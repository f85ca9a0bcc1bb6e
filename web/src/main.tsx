import { render } from 'preact';
import { lazy } from './look/lazy';
import { effect, untracked } from '@preact/signals';
import './look/look.css';
import * as open from './state/open';
import { listen } from './state/events';
import { keep_habits } from './state/habits';
import { route, watch_addresses } from './state/route';
import { Frame } from './frame/frame';
import { ShelfSheet } from './shelf/shelf_sheet';
import { PieceSheet } from './piece/piece_sheet';
import { FindingsSheet } from './findings/findings_sheet';
import { PriceSheet } from './price/price_sheet';
import { StockSheet } from './stock/stock_sheet';
import { BenchSheet } from './bench/bench_sheet';
import { CalendarSheet } from './calendar/calendar_sheet';
import { PapersSheet } from './papers/papers_sheet';

const TextSheet = lazy(() => import('./text/text_sheet').then((room) => room.TextSheet));

const kRooms = {
  piece: PieceSheet, text: TextSheet, findings: FindingsSheet, price: PriceSheet, stock: StockSheet, bench: BenchSheet, calendar: CalendarSheet, papers: PapersSheet,
};

function Pages() {
  const at = route.value;
  if (at.sheet === 'shelf') return <ShelfSheet />;
  const Room = kRooms[at.sheet];
  return (
    <Frame sheet={at.sheet}>
      <Room />
    </Frame>
  );
}

/** Ctrl+S keeps, Ctrl+Z takes back, Alt+1 to Alt+8 turn to a sheet. */
function on_key(event: KeyboardEvent): void {
  const at = route.value;
  if (at.sheet === 'shelf') return;
  const command = event.ctrlKey || event.metaKey;
  const key = event.key.toLowerCase();
  const in_field = (event.target as Element).matches?.('input, textarea, select');
  if (command && key === 's') { event.preventDefault(); void open.save(); }
  else if (command && key === 'z' && !in_field) { event.preventDefault(); if (event.shiftKey) open.redo(); else open.undo(); }
  else if (event.altKey && /^[1-8]$/.test(key)) {
    event.preventDefault();
    document.querySelectorAll<HTMLAnchorElement>('.index a')[Number(key) - 1]?.click();
  }
}

// Before anything is drawn: a sheet asks for its commission as soon as it appears.
effect(() => {
  const at = route.value;
  untracked(() => (at.sheet === 'shelf' ? open.close() : void open.open(at.id)));
});
keep_habits();
watch_addresses();
listen();
addEventListener('keydown', on_key);
const place = document.getElementById('pages');
if (place) render(<Pages />, place);
if ('serviceWorker' in navigator && import.meta.env.PROD) {
  addEventListener('load', () => void navigator.serviceWorker.register('/sw.js').catch(() => undefined));
}
