// What a part costs in stock: its share, by rough volume, of what is bought of that stock.
import type { Part, Plan } from '../api/plan';

const volume = (part: Part) => part.rough.length.mm * part.rough.width.mm * part.rough.thickness.mm;

export function stock_price(plan: Plan, stock: string): number | null {
  const bought = [...plan.stock.solids, ...plan.stock.sheets].find((one) => one.stock === stock);
  return bought ? bought.price : null;
}

/** Minor units; null for what is bought in ready. */
export function part_cost(plan: Plan, part: Part): number | null {
  const price = stock_price(plan, part.stock);
  const all = plan.piece.parts.filter((one) => one.stock === part.stock).reduce((sum, one) => sum + volume(one), 0);
  return price === null || all === 0 ? null : Math.round((price * volume(part)) / all);
}

/** What the stock is called, from the shopping list; its id where it is not bought. */
export function stock_name(plan: Plan, stock: string): string {
  return plan.stock.purchases.find((one) => one.stock === stock)?.what ?? stock.replaceAll('_', ' ');
}

/** Joints of a part, counted by kind and partner's code: "mortise and tenon with A1". */
export function joints_of(plan: Plan, part: Part): Array<{ says: string; count: number }> {
  const code = new Map(plan.piece.parts.map((one) => [one.path, `${one.code} ${one.name}`]));
  const counted = new Map<string, number>();
  for (const joint of plan.piece.joints) {
    const other = joint.a === part.path ? joint.b : joint.b === part.path ? joint.a : null;
    if (other === null) continue;
    const glued = joint.glued ? ', glued' : joint.undone ? ', comes apart' : '';
    const says = `${joint.kind} · ${code.get(other) ?? 'the floor or wall'}${glued}`;
    counted.set(says, (counted.get(says) ?? 0) + 1);
  }
  return [...counted].map(([says, count]) => ({ says, count }));
}
