// The one place that talks to the server. Answers are shaped by docs/api.schema.json.
import type {
  Comparison, Created, Edited, Kept, KeptText, NewCommission, PapersAnswer, PlanAnswer, Refusal, Shelf, Ticks,
  ValuesAnswer, WrittenError,
} from './server';

/** The server said no, and why. */
export class Refused extends Error {
  constructor(readonly status: number, readonly answer: Refusal) {
    super(answer.errors[0]?.message ?? `the server answered ${status}`);
  }
}

/** Nobody answered: the server is stopped, or the way to it is cut. */
export class Unreachable extends Error {}

async function ask(method: string, path: string, body?: unknown, signal?: AbortSignal): Promise<Response> {
  let answer: Response;
  try {
    answer = await fetch(`/api/${path}`, {
      method,
      ...(body === undefined ? {} : { body: JSON.stringify(body), headers: { 'Content-Type': 'application/json' } }),
      ...(signal ? { signal } : {}),
    });
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') throw error;
    throw new Unreachable('The server does not answer.');
  }
  if (!answer.ok) throw new Refused(answer.status, await refusalIn(answer));
  return answer;
}

async function refusalIn(answer: Response): Promise<Refusal> {
  try {
    return (await answer.json()) as Refusal;
  } catch {
    const error: WrittenError = { message: `The server answered ${answer.status}.`, file: '', line: 0, column: 0, found: '', expected: '', nearest: '' };
    return { errors: [error] };
  }
}

async function json<T>(method: string, path: string, body?: unknown, signal?: AbortSignal): Promise<T> {
  return (await (await ask(method, path, body, signal)).json()) as T;
}

const of = (id: string, what: string) => `commissions/${encodeURIComponent(id)}/${what}`;
type Question = { text?: string; quick?: boolean; trial?: boolean };

export const server = {
  shelf: () => json<Shelf>('GET', 'shelf'),
  create: (wanted: NewCommission) => json<Created>('POST', 'shelf', wanted),
  text: (id: string) => json<KeptText>('GET', of(id, 'text')),
  keep: (id: string, text: string, version: string) => json<Kept>('PUT', of(id, 'text'), { text, version }),
  plan: (id: string, question: Question, signal?: AbortSignal) => json<PlanAnswer>('POST', of(id, 'plan'), question, signal),
  values: (id: string, text: string) => json<ValuesAnswer>('POST', of(id, 'values'), { text }),
  edit: (id: string, text: string, line: number, column: number, from: string, to: string) =>
    json<Edited>('POST', of(id, 'edit'), { text, at: { line, column }, from, to }),
  compare: (id: string, all: boolean) => json<Comparison>('GET', of(id, `compare?all=${all ? 1 : 0}`)),
  cancel: (id: string) => json<unknown>('POST', of(id, 'cancel')),
  solids: async (id: string, text: string | undefined, signal?: AbortSignal) =>
    (await ask('POST', of(id, 'solids'), text === undefined ? {} : { text }, signal)).arrayBuffer(),
  drawing: async (id: string, text: string | undefined, view: string, signal?: AbortSignal) =>
    (await ask('POST', of(id, 'drawing'), { ...(text === undefined ? {} : { text }), view }, signal)).text(),
  papers: (id: string) => json<PapersAnswer>('GET', of(id, 'papers')),
  ticks: (id: string) => json<Ticks>('GET', of(id, 'ticks')),
  tick: (id: string, step: number, done: boolean) => json<Ticks>('PUT', of(id, 'ticks'), { step, done }),
  schema: () => json<Record<string, unknown>>('GET', 'schema'),
};

export const paperAddress = (id: string, paper: string) => `/api/${of(id, `papers/${paper}.pdf`)}`;
export const calendarAddress = (id: string) => `/api/${of(id, 'calendar.ics')}`;
export const paperPageAddress = (id: string, paper: string, page: number, version: string) =>
  `${paperAddress(id, paper)}?page=${page}&svg=1&of=${version.slice(0, 12)}`;
