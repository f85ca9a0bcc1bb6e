// The stage: the piece to turn about, or one of its drawn views.
import { effect, signal } from '@preact/signals';
import { useEffect, useRef, useState } from 'preact/hooks';
import { server } from '../api/client';
import * as format from '../look/format';
import { Words, unit } from '../look/words';
import * as open from '../state/open';
import { light } from '../state/habits';
import * as seen from './seen';
import type { Label, SolidView } from './solid_view';

const labels = signal<readonly Label[]>([]);
let drawn: SolidView | null = null;
/** Milliseconds from the last edit to its solids on the screen. */
export const last_solid_wait = signal(0);

const kViews: ReadonlyArray<readonly [seen.View, string]> = [
  ['solid', 'Turn about'], ['front', 'Front'], ['side', 'Side'], ['top', 'Top'], ['perspective', 'Perspective'],
];

export function Stage() {
  return (
    <section aria-label="The piece drawn">
      <div class="tools views" role="group" aria-label="View" style={{ marginTop: 0 }}>
        {kViews.map(([id, name]) => (
          <button key={id} aria-pressed={seen.view.value === id} disabled={id === 'solid' && seen.no_webgl.value} onClick={() => { seen.view.value = id; }}>{name}</button>
        ))}
      </div>
      {seen.view.value === 'solid' ? <Solid /> : <Drawn view={seen.view.value} />}
    </section>
  );
}

function theme() {
  const style = getComputedStyle(document.documentElement);
  const of = (name: string) => style.getPropertyValue(name).trim();
  return { ground: of('--paper'), pencil: of('--wood-edge'), accent: of('--accent') };
}

function Solid() {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    let gone = false;
    let stop = () => {};
    const begin = fetch_solids();
    void import('./solid_view').then((room) => {
      if (gone || !place.current) return;
      try {
        drawn = new room.SolidView(place.current, (path) => { seen.picked.value = path; }, (found) => { labels.value = found; });
      } catch {
        seen.no_webgl.value = true;
        seen.view.value = 'perspective';
        return;
      }
      stop = follow(drawn, begin);
    });
    return () => {
      gone = true;
      stop();
      drawn?.dispose();
      drawn = null;
      labels.value = [];
    };
  }, [open.id.value]);
  return (
    <>
      <div class="stage" ref={place} tabIndex={0} role="application" aria-label="The piece in space. Arrow keys turn it, plus and minus go nearer and farther, Home stands before it." onKeyDown={on_key}>
        {labels.value.map((label, at) => (
          <span key={at} class="dimension" style={{ transform: `translate(${label.x}px, ${label.y}px) translate(-50%, -50%)` }}><Words of={format.length(label.mm, unit.value)} /></span>
        ))}
        <span class="says caption">Drag to turn, pinch or wheel to go nearer, tap a part to pick it</span>
      </div>
      <Tools />
    </>
  );
}

async function fetch_solids(): Promise<ArrayBuffer | null> {
  const text = open.kept.value ? open.text.value : undefined;
  return server.solids(open.id.value, text).catch(() => null);
}

/** Keeps the picture true to the text, the looks and the light. */
function follow(view: SolidView, first: Promise<ArrayBuffer | null>): () => void {
  let shown: string | null = null;
  let underway: AbortController | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;
  view.colours(theme());
  void first.then((solids) => { if (solids && drawn === view) view.load(solids); });
  const stops = [
    effect(() => view.show({
      picked: seen.picked.value, hidden: seen.hidden.value, apart: seen.apart.value, section: seen.section.value, section_axis: seen.section_axis.value,
      dimensions: seen.dimensions.value, figure: seen.figure.value, chair: seen.chair.value,
    })),
    effect(() => { void light.value; requestAnimationFrame(() => { if (drawn === view) view.colours(theme()); }); }),
    effect(() => {
      const text = open.text.value;
      if (!open.kept.value) return;
      if (shown === null) { shown = text; return; }
      if (text === shown) return;
      shown = text;
      const began = performance.now();
      clearTimeout(timer);
      timer = setTimeout(() => {
        underway?.abort();
        underway = new AbortController();
        server.solids(open.id.value, text, underway.signal).then((solids) => {
          if (drawn !== view) return;
          view.load(solids);
          last_solid_wait.value = performance.now() - began;
        }, () => undefined);
      }, 30);
    }),
  ];
  return () => { clearTimeout(timer); stops.forEach((stop) => stop()); };
}

function on_key(event: KeyboardEvent): void {
  const turns: Record<string, [number, number]> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
  const turn = turns[event.key];
  if (turn) drawn?.turn(...turn);
  else if (event.key === '+' || event.key === '=') drawn?.nearer(0.85);
  else if (event.key === '-') drawn?.nearer(1.18);
  else if (event.key === 'Home') drawn?.look_from('corner');
  else if (event.key === 'Escape') seen.picked.value = null;
  else return;
  event.preventDefault();
}

function Tools() {
  const picked = seen.picked.value;
  return (
    <div class="tools">
      <label>Pull apart<input type="range" min="0" max="1" step="0.02" value={seen.apart.value} onInput={(event) => { seen.apart.value = Number(event.currentTarget.value); }} /></label>
      <label>Section<input type="range" min="0" max="0.98" step="0.02" value={seen.section.value} onInput={(event) => { seen.section.value = Number(event.currentTarget.value); }} /></label>
      <label><span class="hidden-words">Section across</span><select value={seen.section_axis.value} onChange={(event) => { seen.section_axis.value = event.currentTarget.value as seen.Axis; if (seen.section.value === 0) seen.section.value = 0.5; }}>
        <option value="x">across the width</option><option value="y">across the depth</option><option value="z">across the height</option>
      </select></label>
      <button aria-pressed={seen.dimensions.value} onClick={() => { seen.dimensions.value = !seen.dimensions.value; }}>Dimensions</button>
      <button aria-pressed={seen.figure.value} onClick={() => { seen.figure.value = !seen.figure.value; }}>Person 1.70 m</button>
      <button aria-pressed={seen.chair.value} onClick={() => { seen.chair.value = !seen.chair.value; }}>Chair, seat 450 mm</button>
      <button disabled={!picked} onClick={() => picked && drawn?.zoom_to(picked)}>Zoom to part</button>
      <button disabled={!picked} onClick={() => { if (picked) seen.hidden.value = new Set([...seen.hidden.value, picked]); seen.picked.value = null; }}>Hide part</button>
      {seen.hidden.value.size > 0 && <button onClick={() => { seen.hidden.value = new Set(); }}>Show all</button>}
      <button onClick={() => drawn?.look_from('corner')}>Stand before it</button>
    </div>
  );
}

/** One of the drawings, as on the papers. */
function Drawn({ view }: { view: seen.View }) {
  const [address, set_address] = useState<string | null>(null);
  const text = open.text.value;
  useEffect(() => {
    let made = '';
    const timer = setTimeout(() => {
      server.drawing(open.id.value, open.kept.value ? text : undefined, view).then((svg) => {
        made = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
        set_address(made);
      }, () => undefined);
    }, 60);
    return () => { clearTimeout(timer); URL.revokeObjectURL(made); };
  }, [view, text, open.id.value]);
  return (
    <>
      {seen.no_webgl.value && <p class="word">This browser cannot draw in space (no WebGL 2); the drawings show the same piece.</p>}
      <div class="stage"><div class="drawn">{address ? <img src={address} alt={`${view} view of ${open.plan.value?.piece.name ?? 'the piece'}`} /> : <span style={{ color: '#575c61' }}>Drawing …</span>}</div></div>
    </>
  );
}
