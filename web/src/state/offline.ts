// The last plan of each commission stays on the device for reading where the server is out of reach.
import type { Plan } from '../api/plan';

const kShelf = 'plans-1';
const address = (id: string) => `/kept-plan/${id}`;
const possible = () => typeof caches !== 'undefined';

export async function keep_plan(id: string, plan: Plan): Promise<void> {
  if (!possible()) return;
  try {
    const shelf = await caches.open(kShelf);
    await shelf.put(address(id), new Response(JSON.stringify(plan), { headers: { 'Content-Type': 'application/json' } }));
  } catch {
    // No room: reading without the server is then not possible, and nothing else is lost.
  }
}

export async function known_plan(id: string): Promise<Plan | null> {
  if (!possible()) return null;
  try {
    const known = await caches.match(address(id));
    return known ? ((await known.json()) as Plan) : null;
  } catch {
    return null;
  }
}
