// Taking back. Typing that goes on is one step; a pause or a stepper begins the next.

export type Steps = { past: readonly string[]; present: string; future: readonly string[]; at: number };
const kOneStep = 800; // milliseconds within which typing belongs together
const kMostSteps = 200;

export const first_step = (text: string): Steps => ({ past: [], present: text, future: [], at: -Infinity });

export function stepped(steps: Steps, text: string, now: number, typing: boolean): Steps {
  if (text === steps.present) return steps;
  const together = typing && now - steps.at < kOneStep && steps.past.length > 0;
  const past = together ? steps.past : [...steps.past, steps.present].slice(-kMostSteps);
  return { past, present: text, future: [], at: typing ? now : -Infinity };
}

export function undone(steps: Steps): Steps {
  const before = steps.past.at(-1);
  if (before === undefined) return steps;
  return { past: steps.past.slice(0, -1), present: before, future: [steps.present, ...steps.future], at: -Infinity };
}

export function redone(steps: Steps): Steps {
  const next = steps.future[0];
  if (next === undefined) return steps;
  return { past: [...steps.past, steps.present], present: next, future: steps.future.slice(1), at: -Infinity };
}
