// What can be done about a finding with one tap: the options of choices that make it go away.
import type { Finding, Plan } from '../api/plan';
import type { WrittenValue } from '../api/server';

export type Remedy = { says: string; price_change: number; hours_change: number; days_change: number; brings: number; value: WrittenValue; to: string };

export function remedies(finding: Finding, plan: Plan, values: readonly WrittenValue[]): Remedy[] {
  return plan.choices
    .filter((one) => !one.picked && one.errors.length === 0 && one.findings_gone.includes(finding.id))
    .flatMap((one) => {
      const value = values.find((written) => written.path === `choices/${one.choice}/pick`);
      return value ? [{ says: one.says, price_change: one.price_change, hours_change: one.hours_change, days_change: one.days_change, brings: one.findings_new.length, value, to: one.option }] : [];
    });
}
