// A text that is not kept by the server yet is kept in the browser, so that no stopped server, closed
// tab or flat battery takes it.
export type Draft = { text: string; version: string; at: string };

const name = (id: string) => `draft:${id}`;

export function draft_of(id: string): Draft | null {
  try {
    const draft = JSON.parse(localStorage.getItem(name(id)) ?? 'null') as Draft | null;
    return draft && typeof draft.text === 'string' ? draft : null;
  } catch {
    return null;
  }
}

export function put_draft(id: string, draft: Draft): void {
  try {
    localStorage.setItem(name(id), JSON.stringify(draft));
  } catch {
    // A full or forbidden store: the text still stands on the page.
  }
}

export function drop_draft(id: string): void {
  try {
    localStorage.removeItem(name(id));
  } catch {
    // see above
  }
}
