import { autocompletion, completionKeymap, type CompletionContext, type CompletionResult } from '@codemirror/autocomplete';
import { defaultKeymap, indentWithTab } from '@codemirror/commands';
import { yaml } from '@codemirror/lang-yaml';
import { HighlightStyle, indentUnit, syntaxHighlighting } from '@codemirror/language';
import { lintGutter, setDiagnostics, type Diagnostic } from '@codemirror/lint';
import { Annotation, EditorState } from '@codemirror/state';
import { EditorView, drawSelection, highlightActiveLine, keymap, lineNumbers } from '@codemirror/view';
import { tags } from '@lezer/highlight';
import { effect } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { WrittenError } from '../api/server';
import { server } from '../api/client';
import * as format from '../look/format';
import { Words } from '../look/words';
import * as open from '../state/open';
import { Changed } from './changed';
import { offers, type Schema } from './completion';
import { extent_of } from './extent';
import { place_at } from './place';

const from_outside = Annotation.define<boolean>();
let schema: Schema | null = null;
let editor: EditorView | null = null;

const kInk = HighlightStyle.define([
  { tag: tags.propertyName, color: 'var(--accent)', fontWeight: '600' },
  { tag: tags.comment, color: 'var(--soft)', fontStyle: 'italic' },
  { tag: [tags.punctuation, tags.separator, tags.brace, tags.squareBracket], color: 'var(--soft)' },
]);
const kPaper = EditorView.theme({
  '&': { backgroundColor: 'var(--sheet)', color: 'var(--pencil)' },
  '.cm-scroller': { fontFamily: "ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace", lineHeight: '1.55' },
  '.cm-gutters': { backgroundColor: 'var(--paper)', color: 'var(--soft)', border: '0' },
  '.cm-activeLine, .cm-activeLineGutter': { backgroundColor: 'color-mix(in srgb, var(--accent-wash) 55%, transparent)' },
  '.cm-cursor': { borderLeftColor: 'var(--accent)', borderLeftWidth: '2px' },
  '&.cm-focused .cm-selectionBackground, .cm-selectionBackground': { backgroundColor: 'var(--accent-wash)' },
  '.cm-lintRange-error': { backgroundImage: 'none', borderBottom: '3px double var(--pencil)', backgroundColor: 'var(--shade)' },
  '.cm-tooltip': { backgroundColor: 'var(--sheet)', color: 'var(--pencil)', border: '1px solid var(--pencil)', fontFamily: 'Inter, sans-serif' },
  '.cm-tooltip-autocomplete ul li': { minHeight: '32px', display: 'flex', alignItems: 'center', gap: '0.8rem' },
  '.cm-tooltip-autocomplete ul li[aria-selected]': { backgroundColor: 'var(--accent)', color: 'var(--on-accent)' },
  '.cm-completionDetail': { fontStyle: 'normal', fontSize: '0.85em', marginLeft: 'auto' },
  '.cm-diagnostic-error': { borderLeft: '4px solid var(--pencil)' },
});

function complete(context: CompletionContext): CompletionResult | null {
  if (!schema) return null;
  const place = place_at(context.state.doc.toString(), context.pos);
  if (place.word === '' && !context.explicit) return null;
  const options = offers(schema, place).map((offer) => ({ label: offer.word, detail: offer.says.slice(0, 60), apply: offer.key ? `${offer.word}: ` : offer.word, type: offer.key ? 'property' : 'enum' }));
  return options.length > 0 ? { from: context.pos - place.word.length, options } : null;
}

function make_editor(place: HTMLElement): EditorView {
  const own_keys = [
    { key: 'Mod-z', run: () => { open.undo(); return true; } },
    { key: 'Mod-Shift-z', run: () => { open.redo(); return true; } },
    { key: 'Mod-y', run: () => { open.redo(); return true; } },
  ];
  return new EditorView({
    parent: place,
    state: EditorState.create({
      doc: open.text.value,
      extensions: [
        lineNumbers(), lintGutter(), drawSelection(), highlightActiveLine(), indentUnit.of('  '), yaml(), syntaxHighlighting(kInk), kPaper,
        autocompletion({ override: [complete], icons: false }),
        keymap.of([...own_keys, ...completionKeymap, indentWithTab, ...defaultKeymap]),
        EditorView.contentAttributes.of({ 'aria-label': 'The written commission. Escape, then Tab leaves the text.', spellcheck: 'false', tabindex: '0' }),
        EditorView.updateListener.of((update) => {
          const ours = update.transactions.some((one) => one.docChanged && !one.annotation(from_outside));
          if (ours) open.change(update.state.doc.toString(), true);
        }),
      ],
    }),
  });
}

/** Puts another text into the editor, touching only what differs. */
function put(view: EditorView, text: string): void {
  const now = view.state.doc.toString();
  if (now === text) return;
  let from = 0;
  while (from < now.length && from < text.length && now[from] === text[from]) from++;
  let [end, to] = [now.length, text.length];
  while (end > from && to > from && now[end - 1] === text[to - 1]) { end--; to--; }
  view.dispatch({ changes: { from, to: end, insert: text.slice(from, to) }, annotations: from_outside.of(true) });
}

function show_errors(view: EditorView, errors: readonly WrittenError[]): void {
  const text = view.state.doc.toString();
  const found: Diagnostic[] = errors.filter((error) => error.line > 0).map((error) => {
    const { from, to } = extent_of(text, error);
    const nearest = error.nearest ? ` Did you mean ${error.nearest}?` : '';
    return { from, to, severity: 'error', message: error.message + nearest };
  });
  view.dispatch(setDiagnostics(view.state, found));
}

function go_to_line(line: number, column = 1): void {
  if (!editor) return;
  const at = editor.state.doc.line(Math.min(Math.max(1, line), editor.state.doc.lines));
  const position = Math.min(at.from + column - 1, at.to);
  editor.dispatch({ selection: { anchor: position }, effects: EditorView.scrollIntoView(position, { y: 'center' }) });
  editor.focus();
}

/** The text itself, and what changing it does. */
export function TextSheet() {
  const place = useRef<HTMLDivElement>(null);
  const ready = open.kept.value !== null;
  useEffect(() => {
    if (!place.current || !ready) return;
    const view = make_editor(place.current);
    editor = view;
    if (!schema) void server.schema().then((found) => { schema = found as Schema; }, () => undefined);
    const stops = [effect(() => put(view, open.text.value)), effect(() => show_errors(view, open.errors.value))];
    const line = Number(new URLSearchParams(location.search).get('line'));
    if (line > 0) go_to_line(line);
    return () => { stops.forEach((stop) => stop()); view.destroy(); editor = null; };
  }, [ready]);
  return (
    <div class="written">
      <div>
        {!ready && open.reachable.value && <p class="soft">Reading the text …</p>}
        <div class="editor" ref={place} />
        <p class="caption">Ctrl+Space offers what may stand here. Nothing is written to the file before you press Keep (Ctrl+S); until then this browser remembers it.</p>
        {open.unsaved.value && <div class="row"><button class="main" onClick={() => void open.save()}>Keep</button><button onClick={open.discard}>Back to what was kept</button></div>}
      </div>
      <aside>
        <Mistakes />
        <Changed />
      </aside>
    </div>
  );
}

function Mistakes() {
  const errors = open.errors.value;
  if (errors.length === 0) return null;
  return (
    <section aria-label="Mistakes">
      <h2 style={{ marginTop: 0 }}>{format.count(errors.length, 'mistake')} to mend</h2>
      <ul class="mistakes">
        {errors.slice(0, 30).map((error, at) => (
          <li key={at}>
            <button onClick={() => go_to_line(error.line, error.column)} disabled={error.line === 0}>
              <span class="soft small">{error.line > 0 ? `Line ${error.line}` : 'Somewhere'}</span><br />
              <Words of={error.message} />
              {error.nearest && <><br /><span class="small">Nearest: {error.nearest}</span></>}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
