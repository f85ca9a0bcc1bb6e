// Operations as a maker takes them: phase by phase, each with the figure its machine is set to.
import type { Plan } from '../api/plan';

export type Operation = Plan['bench']['operations'][number];
export type Step = Operation & { number: number };

export const steps_of = (plan: Plan): Step[] => plan.bench.operations.map((one, at) => ({ ...one, number: at + 1 }));

/** Steps in their order, under a heading wherever the phase changes. */
export function phases(steps: readonly Step[]): Array<{ phase: string; steps: Step[] }> {
  const runs: Array<{ phase: string; steps: Step[] }> = [];
  for (const step of steps) {
    const last = runs.at(-1);
    if (last?.phase === step.phase) last.steps.push(step);
    else runs.push({ phase: step.phase, steps: [step] });
  }
  return runs;
}

const kPlain = /^(?:\d+ )?\d+(?:[./]\d+)?[+-]?$/;
/** The setting in millimetres when it is a plain size of the commission's unit. */
export function setting_mm(setting: string, unit: 'inch' | 'mm'): number | null {
  if (!kPlain.test(setting)) return null;
  const value = setting.replace(/[+-]$/, '').split(' ').reduce((sum, word) => {
    const [top, bottom] = word.split('/').map(Number);
    return sum + (top ?? 0) / (bottom ?? 1);
  }, 0);
  return unit === 'inch' ? value * 25.4 : value;
}

export const step_minutes = (step: Step) => step.setup_minutes + step.work_minutes;
export const first_open = (steps: readonly Step[], done: ReadonlySet<number>) => Math.max(0, steps.findIndex((step) => !done.has(step.number)));

/** Places for labels along a scale so that none covers another: moved apart as little as needed. */
export function spread_labels(at: readonly number[], gap: number): number[] {
  const order = at.map((_, index) => index).sort((a, b) => (at[a] ?? 0) - (at[b] ?? 0));
  const placed = [...at];
  for (let pass = 0; pass < 200; pass++) {
    let moved = false;
    for (let index = 1; index < order.length; index++) {
      const [low, high] = [order[index - 1]!, order[index]!];
      const short = gap - (placed[high]! - placed[low]!);
      if (short > 1e-6) { placed[low]! -= short / 2; placed[high]! += short / 2; moved = true; }
    }
    if (!moved) break;
  }
  return placed;
}
