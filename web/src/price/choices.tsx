// Choices side by side: what each other option would change.
import type { Plan } from '../api/plan';
import * as format from '../look/format';
import { currency, unit } from '../look/words';
import * as open from '../state/open';

type Option = Plan['choices'][number];

export const grouped = (choices: readonly Option[]) => [...new Set(choices.map((one) => one.choice))].map((choice) => ({ choice, options: choices.filter((one) => one.choice === choice) }));

export function Choices({ plan }: { plan: Plan }) {
  if (plan.choices.length === 0) return null;
  return (
    <section aria-label="Choices side by side">
      <h2>Choices side by side</h2>
      <div class="wide" tabIndex={0} role="region" aria-label="Table of choices">
        <table class="cards">
          <thead><tr><th>Option</th><th class="right">Price</th><th class="right">Hours</th><th class="right">Lead days</th><th class="right">Weight</th><th class="right">Findings</th><th /></tr></thead>
          {grouped(plan.choices).map(({ choice, options }) => (
            <tbody key={choice}>{options.map((one) => <Row key={one.option} option={one} />)}</tbody>
          ))}
        </table>
      </div>
      <p class="caption">Differences from the piece as it is written; everything else stays. Lead days: of what takes longest to come.</p>
    </section>
  );
}

const kg = (value: number) => (Math.abs(value) < 0.05 ? 'no change' : `${value > 0 ? '+' : '−'}${format.mass(Math.abs(value), unit.value)}`);
const days = (value: number) => (value === 0 ? 'no change' : `${value > 0 ? '+' : '−'}${Math.abs(Math.round(value))}`);

function Row({ option }: { option: Option }) {
  const value = open.values.value.find((one) => one.path === `choices/${option.choice}/pick`);
  if (option.picked) {
    return <tr class="chosen"><th scope="row"><span class="strong" style={{ color: 'var(--pencil)' }}>{option.says}</span></th><td colSpan={5} class="right">as written</td><td class="right">Taken</td></tr>;
  }
  if (option.errors.length > 0) return <tr><td>{option.says}</td><td colSpan={6}>Cannot be built: {option.errors[0]}</td></tr>;
  return (
    <tr>
      <td>{option.says}</td>
      <td class="right figure" data-says="Price">{format.money_change(option.price_change, currency.value)}</td>
      <td class="right figure" data-says="Hours">{format.hours_change(option.hours_change)}</td>
      <td class="right figure" data-says="Lead days">{days(option.days_change)}</td>
      <td class="right figure" data-says="Weight">{kg(option.mass_change_kg)}</td>
      <td class="right" data-says="Findings">{option.findings_gone.length > 0 && <span class="figure">{option.findings_gone.length} gone </span>}{option.findings_new.length > 0 && <span class="strong figure">{option.findings_new.length} new</span>}{option.findings_gone.length + option.findings_new.length === 0 && 'the same'}</td>
      <td class="right"><button disabled={!value} aria-label={`Take ${option.says}`} onClick={() => value && void open.set_value(value, option.option)}>Take</button></td>
    </tr>
  );
}
